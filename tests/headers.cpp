// Nothing of its own: made so that the header all tests share is made once.
