"""The wizard in a browser, on this computer or on a tablet near by. Needs the optional extra named browser."""
