return step {
  id = "broken_step", titel = "x",
  unit = "mn",
}
