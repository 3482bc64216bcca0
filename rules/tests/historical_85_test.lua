-- The invented grand of 85 keys: what does not exist on it is not asked for. All values are the book's own.
return tests "historical_85" {
  { "sostenuto", "once", reads = nil, want = "not applicable", source = "book: this piano has none" },
  { "up_stop", "once", reads = nil, want = "not applicable", source = "book: this piano has none" },
  { "damper_tray_timing", "C3", reads = nil, want = "not applicable", source = "book: no capstans of their own" },
  { "key_dip", "C4", reads = 9.5, want = "pass", source = "invented: fails in the grand book" },
  { "key_dip", "C4", reads = 10.5, want = "fail", why = "high", fix = { "front_punching", "add" },
    source = "invented: passes in the grand book" },
  { "blow", "A7", reads = 49.5, want = "fail", why = "high", fix = { "capstan", "raise", 7/16 },
    source = "arithmetic: 4.5 mm at 10 mm a turn is 0.45, rounded to a sixteenth" },
  { "let_off", "A7", reads = 1.6, want = "pass", source = "book: anchors outside the compass are clipped" },
  { "blow", "A7", reads = nil, want = "missing", source = "book: the top note of this piano" },
}
