-- Slips: a sign, a turn for an eighth of one, a millimetre for an inch.  Figures invented.
return book {
  id = "turned", api = 1, title = "Signs turned round",
  use "grand",
  adjuster { "capstan", moves = { blow = 2 } },
  adjuster { "drop_screw", moves = { drop = 20 } },
  adjuster { "let_off_button", moves = { let_off = 0.3 } },
  adjuster { "centre_pin", moves = { downweight = "down" } },
}
