"""The workshop in the browser: a face only. It asks the plane and shows what it says."""
