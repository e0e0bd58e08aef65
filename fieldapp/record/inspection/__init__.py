"""What verification looks at: the policy, each signature, and what each revision changed."""
