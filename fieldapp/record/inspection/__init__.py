"""What verification looks at: the policy, the proof of each signature, what each revision changed."""
