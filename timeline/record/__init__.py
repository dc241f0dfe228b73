"""The record: the codec, the file and the door where outside data is checked."""
