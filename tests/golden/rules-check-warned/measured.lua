-- What was measured differs somewhat; figures invented.
return book {
  id = "measured", api = 1, title = "Measured",
  use "grand",
  adjuster { "capstan", moves = { blow = -12, checking = "slight", rest_rail_gap = false }, assumed = false,
    why = "measured on three pianos" },
  adjuster { "drop_screw", more = "raise", less = "lower", moves = { drop = -2.6 } },
}
