-- The invented concert-hire book: tighter than the grand that it builds on. All values are the book's own.
return tests "concert_hire" {
  { "let_off", "C8", reads = "1/16 in", want = "pass", source = "invented" },
  { "let_off", "C8", reads = 1.9, want = "fail", why = "high", fix = { "let_off_button", "raise", 1/8 },
    source = "invented: passes in the grand book; arithmetic: 0.6 mm at 5 mm a turn" },
  { "drop", "A4", reads = 1.5, want = "fail", why = "high", fix = { "drop_screw", "raise", 3/16 },
    source = "invented: passes in the grand book; arithmetic: 0.7 mm at 4 mm a turn, to a sixteenth" },
  { "key_dip", "C4", reads = 10.5, want = "fail", why = "high", fix = { "front_punching", "add" },
    source = "invented: passes in the grand book" },
  { "blow", "A4", reads = "1 3/4 in", want = "fail", why = "low", source = "invented: one band" },
  { "mean_weight", "A4", with = { downweight = 50, upweight = 20 }, want = "fail", why = "low",
    source = "invented: 35 g passes in the grand book" },
  { "checking", "D4", reads = nil, want = "missing", source = "book: what it does not change, it keeps" },
}
