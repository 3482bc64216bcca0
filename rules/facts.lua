-- The grand's facts: what the mathematics must know about this piano.
-- All of these are assumptions until the sheet states them, for example `# travel_ratio: 5.1`.
-- Arms are measured along the key from the balance pin, on one natural and one sharp: sharps have a row of balance
-- pins of their own, further from the player, and arms of their own. A few millimetres decide how they play.
return book {
  id = "facts", api = 1, title = "Facts of a grand",

  -- Two ratios that must never be mixed: one for travel, one for grams.
  fact { "travel_ratio", title = "hammer travel for 1 of key travel", unit = "ratio", naturals = 5, sharps = 5,
    assumed = true, source = "list-2010-travel-link; arithmetic: 45 / 9" },
  fact { "hammer_leverage", title = "hammer weight felt at the key front", unit = "ratio", value = 5.75,
    assumed = true, source = "list-2002-leverage; college-2004-leverage" },
  fact { "capstan_ratio", title = "capstan lift for 1 of key travel", unit = "ratio", naturals = 0.5, sharps = 0.5,
    assumed = true, source = "college-2004-leverage; from-memory: sharps" },

  fact { "key_front", title = "balance pin to front measuring point", unit = "mm", naturals = 254, sharps = 221,
    assumed = true, source = "list-2012-key-length; page-key-pins; list-2003-balance-pins: sharps; common-practice" },
  fact { "key_pin", title = "balance pin to front pin", unit = "mm", naturals = 234, sharps = 201,
    assumed = true, source = "list-2012-key-length; page-key-pins; list-2003-balance-pins: sharps; common-practice" },
  fact { "key_back", title = "balance pin to back rail contact", unit = "mm", naturals = 220, sharps = 203,
    assumed = true, source = "list-2012-key-length; page-key-pins; list-2003-balance-pins: sharps; common-practice" },
  fact { "key_capstan", title = "balance pin to capstan", unit = "mm", naturals = 127, sharps = 110,
    assumed = true, source = "list-2012-key-length; page-key-pins; list-2003-balance-pins: sharps; common-practice" },

  fact { "capstan_pitch", title = "capstan lift in one turn", unit = "mm/turn", value = 1,
    assumed = true, source = "common-practice" },
  fact { "let_off_turn", title = "hammer movement for one turn of a let-off button", unit = "mm/turn", value = 5,
    assumed = true, source = "common-practice" },
  fact { "drop_turn", title = "hammer movement for one turn of a drop screw", unit = "mm/turn", value = 4,
    assumed = true, source = "common-practice" },
  -- No default: it goes by the wedge of tail and check. Without it a correction names the way alone.
  fact { "check_bend", title = "hammer movement for 1 mm of check bend", unit = "ratio",
    source = "common-practice" },
  fact { "lost_motion", title = "key travel before the hammer moves", unit = "mm", value = 0,
    assumed = true, source = "common-practice" },

  -- The shop says how much lead a key may carry. Nobody else can, so there is no default.
  fact { "most_lead_per_key", title = "most lead that a key may carry", unit = "g",
    source = "shop" },
}
