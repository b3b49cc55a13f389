"""Parts of the generator of the invented sample ranch; see ../make_sample_ranch.py."""
