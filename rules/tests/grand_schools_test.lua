-- The other option of every choice of the grand. A source stands beside each value, as in grand_test.lua.
return tests "grand_schools" {
  -- aftertouch_from = contact ------------------------------------------------------------------
  { "aftertouch", "D4", reads = "1/8 in", want = "pass", source = "digest-2002-blow" },
  { "aftertouch", "D4", reads = 1.2, want = "fail", why = "low", fix = { "front_punching", "remove" },
    source = "book: right from the escape, 2 mm short from first contact" },
  { "aftertouch", "D4", reads = 4, want = "fail", why = "high", fix = { "front_punching", "add" }, source = "book" },
  { "aftertouch", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },
  { "implied_travel_ratio", "D4", with = { blow = 47, let_off = 2, key_dip = 10, aftertouch = 3 }, want = "pass",
    source = "arithmetic: 45 / (10 - 3 + 2) is 5, as 45 / (10 - 1); list-2010-travel-link" },
  { "implied_travel_ratio", "D4",
    with = { blow = 47, let_off = 2, key_dip = 10, aftertouch = 1 }, want = "fail", why = "low",
    source = "arithmetic: 45 / 11 is 4.09, an escape reading in the wrong school shows" },
  { "implied_travel_ratio", "D4", with = { blow = 47, let_off = 2, key_dip = 10, aftertouch = 3 },
    facts = { let_off_travel = 1 }, want = "fail", why = "high", source = "arithmetic: 45 / 8 is 5.63" },

  -- key_line = crowned -------------------------------------------------------------------------
  { "key_level", "E4", reads = "1/32 in", want = "pass", source = "list-2010-crown" },
  { "key_level", "E4", reads = 0.8, want = "pass", source = "list-2010-crown: in mm" },
  { "key_level", "E4", reads = 0, want = "fail", why = "low", fix = { "balance_punching", "add" },
    source = "book: the middle of a crowned line is high" },
  { "key_level", "G2", reads = 0.6, want = "pass", source = "arithmetic: an arc, 3/4 of 0.8 half way" },
  { "key_level", "D6", reads = 0.6, want = "pass", source = "arithmetic: an arc, 3/4 of 0.8 half way" },
  { "key_level", "A0", reads = 0, want = "pass", source = "book: the ends of a crowned line stand at the datum" },
  { "key_level", "C8", reads = 0.8, want = "fail", why = "high", fix = { "balance_punching", "remove" },
    source = "book: the ends of a crowned line are at the datum" },

  -- una_corda = graze --------------------------------------------------------------------------
  { "una_corda", "once", reads = "ok", want = "pass", source = "list-1996-pedals: not quite cleared" },
  { "una_corda", "once", reads = "far", want = "fail", why = "far", fix = { "shift_stop", "shorter" },
    source = "book: the left string is brushed, never missed" },
  { "una_corda", "once", reads = "short", want = "fail", why = "short", fix = { "shift_stop", "further" },
    source = "book: the left string is brushed, not struck in full" },

  -- pedal_lift = equal -------------------------------------------------------------------------
  { "pedal_stop", "once", reads = "ok", want = "pass", source = "list-1996-pedals: equal" },
  { "pedal_stop", "once", reads = "short", want = "fail", why = "short", fix = { "pedal_stop_screw", "raise" },
    source = "list-1996-pedals: equal" },
  { "pedal_stop", "once", reads = "far", want = "fail", why = "far", fix = { "pedal_stop_screw", "lower" },
    source = "list-1996-pedals: equal" },
}
