-- The other option of every choice of the upright. A source stands beside each value, as in upright_test.lua.
return tests "upright_schools" {
  -- aftertouch_from = contact: [list-2000-first-contact] names the definition and no figure.
  { "aftertouch", "D4", reads = 2.9, want = "pass", source = "arithmetic: 0.9 from the escape, and 2" },
  { "aftertouch", "D4", reads = 0.9, want = "fail", why = "low", fix = { "front_punching", "remove" },
    source = "book: right from the escape, 2 mm short from first contact" },
  { "aftertouch", "D4", reads = 3.5, want = "fail", why = "high", fix = { "front_punching", "add" }, source = "book" },
  { "implied_travel_ratio", "D4",
    with = { blow = 46, let_off = 2.5, key_dip = 10, aftertouch = 2.9, lost_motion = 0.3 },
    want = "pass", source = "arithmetic: 43.5 / (10 - 2.9 + 2 - 0.3) is 4.94" },

  { "key_level", "E4", reads = "1/32 in", want = "pass", source = "list-2010-crown: as on the grand" },
  { "key_level", "E4", reads = 0, want = "fail", why = "low", fix = { "balance_punching", "add" },
    source = "list-2010-crown: as on the grand" },
  { "key_level", "A0", reads = 0, want = "pass", source = "list-2010-crown: as on the grand" },

  -- damper_start_at = two_thirds: [forum-vertical-dampers] and [list-2001-spoons].
  { "damper_start", "D4", reads = 30.5, want = "pass", source = "arithmetic: two thirds of 46 is 30.7" },
  { "damper_start", "D4", reads = 23, want = "fail", why = "low", source = "book: half way is early in this school" },
  { "damper_start", "D4", reads = 38, want = "fail", why = "high", source = "book" },
  { "damper_fraction", "D4", with = { damper_start = 31, blow = 46 }, want = "pass", source = "arithmetic: 0.67" },
  { "damper_fraction", "D4", with = { damper_start = 23, blow = 46 }, want = "fail", why = "low",
    source = "arithmetic: 0.5" },
  { "damper_key_timing", "D4", reads = "ok", want = "pass", source = "book" },
  { "damper_key_timing", "D4", reads = "early", want = "fail", why = "early",
    fix = { "spoon", "away from its lever" }, source = "geometry" },
  { "damper_key_timing", "D4", reads = "late", want = "fail", why = "late",
    fix = { "spoon", "toward its lever" }, source = "geometry" },
}
