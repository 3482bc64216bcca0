return book {
  id = "slip", api = 1, title = "A book with a slip",
  stage { "set", title = "Set" },
  use "slip_step",
}
