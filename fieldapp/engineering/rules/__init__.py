"""Tables and judgements: what is read out or decided rather than worked out to one number."""
