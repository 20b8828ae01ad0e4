"""The pages and commands of leafturn: everything a person sees, and nothing that is computed."""
