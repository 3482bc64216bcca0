-- Not a book to work by: the upright with the other option of every choice, for its tests.
return book {
  id = "upright_schools", api = 1, title = "Upright, the other schools",
  use "upright",
  choose { "aftertouch_from", "contact" },
  choose { "key_line", "crowned" },
  choose { "damper_start_at", "two_thirds" },
}
