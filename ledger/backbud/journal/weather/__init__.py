"""Day lines and weather files go in; what is known of the weather of each place comes out."""
