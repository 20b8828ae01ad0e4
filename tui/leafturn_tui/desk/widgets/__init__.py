"""The widgets of the pages: all draw prepared rows line by line and read no markup."""
