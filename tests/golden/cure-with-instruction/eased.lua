return book {
  id = "eased", api = 1, title = "Eased keys",
  compass = "C4-E5",
  stage { "keys", title = "Keys" },
  adjuster { "hole", title = "balance hole", more = "plug", less = "ease", irreversible = true, visit = "stack off",
    moves = { easing = "strong" } },
  use "easing",
}
