-- Invented: a firm that hires out concert grands. Tighter limits, graded let-off, aftertouch gives way.
return book {
  id = "concert_hire", api = 1, title = "Concert hire (invented)",
  use "grand",
  change { "let_off", target = graded { { "A0", range(2, 2.8, 2.4) }, { "C8", range(1, 1.6, 1.3) } }, even = 0.3,
    why = "close control at the softest; checked before every hire" },
  change { "drop", target = range(0.5, 1.2, 0.8), why = "close, and read again with the weather" },
  change { "let_off_and_drop", why = "let-off and drop together",
    target = graded { { "A0", range(2.4, 3.8, 3.2) }, { "C8", range(1.5, 2.7, 2.1) } } },
  change { "key_dip", target = by_colour { naturals = range(9.9, 10.2, 10), sharps = range(9.6, 10.2, 10) },
    why = "every piano of ours feels alike" },
  change { "blow", target = range(45, 47.7, 46), why = "one band for both of our models" },
  change { "downweight", target = graded { { "A0", range(50, 55, 53) }, { "C8", range(46, 51, 49) } }, even = 3,
    need = "every", why = "players change pianos from one day to the next" },
  change { "upweight", need = "every", why = "every key is weighed before a season" },
  change { "mean_weight", target = range(36.5, 40, 38), even = 1, why = "concert weight, even from key to key" },
  choose { "pedal_lift", "equal", why = "the same under foot and finger on every piano of ours" },
  float { "aftertouch", within = "0.2 mm" },
}
