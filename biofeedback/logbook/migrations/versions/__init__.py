"""The steps, named by number. A step that was released is never changed."""
