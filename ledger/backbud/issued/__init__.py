"""Papers that were issued: the record of them, and whether the diary still agrees with each."""
