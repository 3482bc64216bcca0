-- Not a book to work by: the grand with the other option of every choice, for its tests.
return book {
  id = "grand_schools", api = 1, title = "Grand, the other schools",
  use "grand",
  choose { "aftertouch_from", "contact" },
  choose { "key_line", "crowned" },
  choose { "una_corda", "graze" },
  choose { "pedal_lift", "equal" },
}
