"""The cuts that free what lies on a sheet."""
