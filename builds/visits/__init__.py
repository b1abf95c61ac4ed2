"""Who can come when: links that need no account, what was said by them, and the page of whoever comes."""
