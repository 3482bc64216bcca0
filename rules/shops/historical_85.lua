-- Invented: a grand of 85 keys from the 1880s. Some steps do not exist on it.
return book {
  id = "historical_85", api = 1, title = "Grand of 85 keys (invented)",
  compass = "A0-A7",
  use "grand",
  change { "blow", target = range(43, 47, 45), why = "lighter hammers, measured on the piano before work" },
  change { "key_dip", target = by_colour { naturals = range(9.3, 10.1, 9.7), sharps = range(9.1, 9.9, 9.7) },
    why = "as found on the keys that were never touched" },
  change { "downweight", target = graded { { "A0", at_most(54, 49) }, { "A7", at_most(50, 45) } },
    why = "lighter action; no figure of the maker is known" },
  change { "upweight", target = graded { { "A0", at_least(16, 19) }, { "A7", at_least(20, 23) } },
    why = "lighter action" },
  change { "mean_weight", target = range(30, 38, 34), why = "lighter action" },
  skip { "sostenuto", why = "this piano has none" },
  skip { "sostenuto_tabs", why = "this piano has none" },
  skip { "sostenuto_gap", why = "this piano has none" },
  skip { "up_stop", why = "this piano has no up-stop rail" },
  skip { "damper_tray_timing", why = "the tray lifts the levers directly, without capstans of their own" },
}
