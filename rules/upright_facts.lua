-- The upright's facts. All are assumptions until the sheet states them.
-- Arms are measured along the key from the balance pin. Sharps have a row of balance pins and arms of their own, on
-- one capstan line. Lost motion is no fact here: it is a step.
return book {
  id = "upright_facts", api = 1, title = "Facts of an upright",

  fact { "travel_ratio", title = "hammer travel for 1 of key travel", unit = "ratio", naturals = 5, sharps = 5,
    assumed = true, source = "page-upright-leverage; arithmetic: (48 - 3) / (10 - 1.27)" },
  fact { "capstan_ratio", title = "capstan lift for 1 of key travel", unit = "ratio", naturals = 0.5, sharps = 0.5,
    assumed = true, source = "from-memory" },
  fact { "key_front", title = "balance pin to front measuring point", unit = "mm", naturals = 220, sharps = 187,
    assumed = true, source = "from-memory; geometry: sharps" },
  fact { "key_pin", title = "balance pin to front pin", unit = "mm", naturals = 200, sharps = 167,
    assumed = true, source = "from-memory; geometry: sharps" },
  fact { "key_back", title = "balance pin to back rail contact", unit = "mm", naturals = 180, sharps = 163,
    assumed = true, source = "from-memory; geometry: sharps" },
  fact { "key_capstan", title = "balance pin to capstan", unit = "mm", naturals = 110, sharps = 93,
    assumed = true, source = "from-memory; geometry: sharps" },
  fact { "capstan_pitch", title = "capstan lift in one turn", unit = "mm/turn", value = 1,
    assumed = true, source = "common-practice" },
  fact { "let_off_turn", title = "hammer movement for one turn of a let-off button", unit = "mm/turn", value = 5,
    assumed = true, source = "geometry: arms and usual pitches" },
  -- No default: it goes by the angle of check and catcher. Without it a correction names the way alone.
  fact { "check_bend", title = "hammer movement for 1 mm of check bend", unit = "ratio", source = "shop" },
}
