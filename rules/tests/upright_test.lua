-- What the upright book must say. Sources: the keys of rules/sources.lua. Steps of rules/common/ are tested with the
-- grand; here stand those whose corrections or neighbours differ.
return tests "upright" {

  -- Prepare ------------------------------------------------------------------------------------

  { "hammer_travel", "G3", reads = "left", want = "fail", why = "left", fix = { "travel_paper", "on its right side" },
    source = "geometry: the flange is on the player's side of its rail" },
  { "hammer_travel", "G3", reads = "right", want = "fail", why = "right", fix = { "travel_paper", "on its left side" },
    source = "geometry" },
  { "screws", "once", reads = "loose", want = "fail", why = "loose", source = "book" },
  { "screws", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "action_bolts", "once", reads = "ok", want = "pass", source = "common-practice" },
  { "action_bolts", "once", reads = "loose", want = "fail", why = "loose", source = "common-practice" },
  { "action_bolts", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "bedding", "once", reads = "ok", want = "pass", source = "common-practice" },
  { "bedding", "once", reads = "knock", want = "fail", why = "knock", source = "common-practice" },
  { "bedding", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "strike_point", "once", reads = 2, want = "pass", source = "page-2011-upright: 2.0 to 2.7" },
  { "strike_point", "once", reads = 2.7, want = "pass", source = "page-2011-upright: 2.0 to 2.7" },
  { "strike_point", "once", reads = 1.5, want = "fail", why = "low", fix = { "action_height", "lower" },
    source = "page-2011-upright; geometry: the bar is above" },
  { "strike_point", "once", reads = 3.5, want = "fail", why = "high", fix = { "action_height", "raise" },
    source = "page-2011-upright" },
  { "strike_point", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  -- Keys ---------------------------------------------------------------------------------------

  { "key_height", "A0", reads = "ok", want = "pass", source = "common-practice" },
  { "key_height", "A0", reads = "low", want = "fail", why = "low", fix = { "balance_punching", "add" },
    source = "geometry" },
  { "key_height", "A0", reads = "high", want = "fail", why = "high", fix = { "balance_punching", "remove" },
    source = "geometry" },
  { "key_height", "A0", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "key_level", "C4", reads = -0.4, want = "fail", why = "low", fix = { "balance_punching", "add" },
    source = "geometry" },
  { "sharp_height", "C#4", reads = 12, want = "pass", source = "list-1998-upright" },
  { "sharp_height", "C#4", reads = 13, want = "fail", why = "high", fix = { "balance_punching", "remove" },
    source = "geometry" },

  -- Align --------------------------------------------------------------------------------------

  { "hammer_spacing", "G3", reads = "left", want = "fail", why = "left", fix = { "hammer_flange", "to the right" },
    source = "book" },
  { "whippen_alignment", "G3", reads = "ok", want = "pass", source = "common-practice" },
  { "whippen_alignment", "G3", reads = "left", want = "fail", why = "left", fix = { "whippen_flange", "to the right" },
    source = "common-practice" },
  { "whippen_alignment", "G3", reads = "right", want = "fail", why = "right", fix = { "whippen_flange", "to the left" },
    source = "common-practice" },
  { "whippen_alignment", "G3", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "check_alignment", "G3", reads = "ok", want = "pass", source = "common-practice" },
  { "check_alignment", "G3", reads = "crooked", want = "fail", why = "crooked", fix = { "check_head", "square" },
    source = "common-practice" },
  { "check_alignment", "G3", reads = "off_side", want = "fail", why = "off_side", fix = { "check_head", "square" },
    source = "common-practice" },
  { "check_alignment", "G3", reads = nil, want = "missing", source = "book: no reading, no pass" },

  -- Set ----------------------------------------------------------------------------------------

  { "hammer_spring_feel", "D4", reads = "ok", want = "pass", source = "book" },
  { "hammer_spring_feel", "D4", reads = "weak", want = "fail", why = "weak", fix = { "hammer_spring", "stronger" },
    source = "book" },
  { "hammer_spring_feel", "D4", reads = "strong", want = "fail", why = "strong", fix = { "hammer_spring", "weaker" },
    source = "page-2001-butt-springs: looser spring, lighter touch" },
  { "hammer_spring_feel", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "blow", "A4", reads = 45, want = "pass", source = "digest-2010-upright: 45 to 48" },
  { "blow", "A4", reads = 48, want = "pass", source = "digest-2010-upright: 45 to 48" },
  { "blow", "A4", reads = 46, want = "pass", source = "page-2011-upright" },
  { "blow", "A4", reads = "1 3/4 in", want = "pass",
    source = "digest-2003-uprights: old uprights" },
  { "blow", "A4", reads = "1 7/8 in", want = "pass", source = "digest-2010-upright: 1 7/8 in is 47.6 mm" },
  { "blow", "A4", reads = 50, want = "fail", why = "high", fix = { "rest_rail", "toward the strings", 4 },
    source = "arithmetic: 4 mm long, the rail and not the capstan" },
  { "blow", "A4", reads = 42, want = "fail", why = "low", fix = { "rest_rail", "away from the strings", 4 },
    source = "arithmetic: 4 mm short" },
  { "blow", "A4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "lost_motion", "A4", reads = 0.3, want = "pass", source = "common-practice" },
  { "lost_motion", "A4", reads = 0.1, want = "pass", source = "list-2006-lost-motion: the tiniest perceptible" },
  { "lost_motion", "A4", reads = 0.6, want = "pass", source = "common-practice" },
  { "lost_motion", "A4", reads = 0.7, want = "fail", why = "high", fix = { "capstan", "raise", 1/4 },
    source = "arithmetic: 0.4 mm is 0.2 turn, an eighth is the finest" },
  { "lost_motion", "A4", reads = "1/16 in", want = "fail", why = "high", fix = { "capstan", "raise" },
    source = "book: on all keys at dip 10 it would leave no aftertouch" },
  { "lost_motion", "A4", reads = "1/8 in", want = "fail", why = "high", fix = { "capstan", "raise" },
    source = "handbook-1907: a considerable fault" },
  { "lost_motion", "A4", reads = 2.3, want = "fail", why = "high", fix = { "capstan", "raise", 1 },
    source = "arithmetic: 2 mm at 2 mm a turn, stops short of the kink" },
  { "lost_motion", "A4", reads = 0, want = "fail", why = "low", fix = { "capstan", "lower", 1/8 },
    source = "arithmetic: 0.3 mm is 0.15 turn, an eighth is the finest" },
  { "lost_motion", "A4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "hammers_on_rail", "A4", reads = "ok", want = "pass", source = "digest-2003-uprights" },
  { "hammers_on_rail", "A4", reads = "hammer_off_rail", want = "fail", why = "hammer_off_rail",
    fix = { "capstan", "lower" }, source = "geometry: past zero the capstan lifts the hammer" },
  { "hammers_on_rail", "A4", reads = "stays", want = "fail", why = "stays", fix = { "capstan", "lower" },
    source = "list-2006-upright-touch" },
  { "hammers_on_rail", "A4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "let_off", "A0", reads = 3, want = "pass", source = "list-1998-upright: 3 bass" },
  { "let_off", "C8", reads = 2, want = "pass", source = "list-1998-upright: 2 top" },
  { "let_off", "A0", reads = "1/8 in", want = "pass", source = "digest-2010-upright" },
  { "let_off", "C8", reads = 3.25, want = "fail", why = "high", fix = { "let_off_button", "raise", 1/4 },
    source = "book: school of the taper; arithmetic: 1.25 mm at 5 mm a turn" },
  { "let_off", "C8", reads = 0.75, want = "fail", why = "low", fix = { "let_off_button", "lower", 1/4 },
    source = "arithmetic: 1.25 mm at 5 mm a turn" },
  { "let_off", "A0", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "key_dip", "C4", reads = 10, want = "pass", source = "digest-2010-upright: 10.0 to 10.5" },
  { "key_dip", "C4", reads = 10.5, want = "pass", source = "digest-2010-upright: 10.0 to 10.5" },
  { "key_dip", "C4", reads = ".390 in", want = "pass", source = "list-1998-upright" },
  { "key_dip", "C4", reads = ".410 in", want = "pass", source = "list-1998-upright: .410 in is 10.4 mm" },
  { "key_dip", "C4", reads = 11.5, want = "fail", why = "high", fix = { "front_punching", "add" },
    source = "list-1998-upright: 11.5 mm can't hold beside its .410 in" },
  { "key_dip", "C4", reads = 9.5, want = "fail", why = "low", fix = { "front_punching", "remove" }, source = "book" },
  { "key_dip", "C#4", reads = 9.5, want = "pass", source = "book: sharps have limits of their own" },
  { "key_dip", "C4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  -- Refine -------------------------------------------------------------------------------------

  { "aftertouch", "C4", reads = ".050 in", want = "pass", source = "list-1998-upright: at most .050" },
  { "aftertouch", "C4", reads = 2, want = "fail", why = "high", fix = { "front_punching", "add" },
    source = "list-1998-upright: over .050 in" },
  { "aftertouch", "C4", reads = 0.1, want = "fail", why = "low", fix = { "front_punching", "remove" },
    source = "common-practice" },
  { "aftertouch", "C4", reads = 0.9, with = { lost_motion = 1.5 }, want = "pass",
    source = "book: passes by itself, behind failing lost motion it is read again" },
  { "aftertouch", "C4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "implied_travel_ratio", "C4",
    with = { blow = 48, let_off = 3, key_dip = 10.27, aftertouch = 1.27, lost_motion = 0.2 },
    want = "pass", source = "arithmetic: 45 / 8.8 = 5.11" },

  { "jack_clearance", "C4", reads = 1, want = "pass", source = "digest-2010-upright" },
  { "jack_clearance", "C4", reads = 0, want = "fail", why = "low", source = "book: jack has not cleared" },
  { "jack_clearance", "C4", reads = 3, want = "fail", why = "high", source = "common-practice" },

  { "sharp_residue", "C#4", with = { sharp_height = 12, key_dip = 10 }, want = "pass", source = "arithmetic: 2.0" },

  { "checking", "D4", reads = 15, want = "pass", source = "digest-2010-upright" },
  { "checking", "D4", reads = "5/8 in", want = "pass", source = "page-2011-upright" },
  { "checking", "D4", reads = 17, want = "pass", source = "common-practice" },
  { "checking", "D4", reads = 18, want = "fail", why = "high", fix = { "backcheck_wire", "toward the catcher" },
    source = "geometry: the way, how far is for the hand to find" },
  { "checking", "D4", reads = 18, want = "fail", why = "high", facts = { check_bend = 2 },
    fix = { "backcheck_wire", "toward the catcher", 1.5 },
    source = "arithmetic: 2.5 mm at 2 mm a mm is 1.25, to the half" },
  { "checking", "D4", reads = 12, want = "fail", why = "low", fix = { "backcheck_wire", "away from the catcher" },
    source = "geometry" },
  { "checking", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "jack_return", "D4", reads = "ok", want = "pass", source = "common-practice" },
  { "jack_return", "D4", reads = "hangs", want = "fail", why = "hangs", fix = { "jack_spring", "stronger" },
    source = "common-practice: its centre or its spring" },
  { "jack_return", "D4", reads = "late", want = "fail", why = "late", source = "common-practice" },
  { "jack_return", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "bridle_straps", "D4", reads = "ok", want = "pass", source = "list-2005-bridle" },
  { "bridle_straps", "D4", reads = "slack", want = "fail", why = "slack",
    fix = { "bridle_wire", "away from the hammers" }, source = "geometry" },
  { "bridle_straps", "D4", reads = "short", want = "fail", why = "short",
    fix = { "bridle_wire", "toward the hammers" }, source = "geometry" },
  { "bridle_straps", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },

  -- Dampers and pedals -------------------------------------------------------------------------

  { "damper_seating", "C3", reads = "ok", want = "pass", source = "book" },
  { "damper_seating", "C3", reads = "leaks", want = "fail", why = "leaks", source = "book" },
  { "damper_seating", "C3", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "damper_lift_together", "C3", reads = "ok", want = "pass", source = "digest-1997-dampers" },
  { "damper_lift_together", "C3", reads = "early", want = "fail", why = "early",
    fix = { "damper_wire", "toward the strings" }, source = "geometry" },
  { "damper_lift_together", "C3", reads = "late", want = "fail", why = "late",
    fix = { "damper_wire", "away from the strings" }, source = "geometry" },
  { "damper_lift_together", "C3", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "damper_key_timing", "C3", reads = "ok", want = "pass", source = "digest-2000-dampers" },
  { "damper_key_timing", "C3", reads = "early", want = "fail", why = "early",
    fix = { "spoon", "away from its lever" }, source = "geometry: toward the lever is earlier" },
  { "damper_key_timing", "C3", reads = "late", want = "fail", why = "late", fix = { "spoon", "toward its lever" },
    source = "geometry" },
  { "damper_key_timing", "C3", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "damper_start", "C3", reads = 23, want = "pass", source = "arithmetic: half of 46" },
  { "damper_start", "C3", reads = 16, want = "fail", why = "low", fix = { "spoon", "away from its lever" },
    source = "geometry: away from the lever is later" },
  { "damper_start", "C3", reads = 30, want = "fail", why = "high", fix = { "spoon", "toward its lever" },
    source = "geometry" },
  { "damper_fraction", "C3", with = { damper_start = 23, blow = 46 }, want = "pass", source = "arithmetic: half way" },

  { "stop_rail", "once", reads = 3, want = "pass", source = "list-2004-stop-rail: 3 to 5" },
  { "stop_rail", "once", reads = 5, want = "pass", source = "list-2004-stop-rail: 3 to 5" },
  { "stop_rail", "once", reads = 1, want = "fail", why = "low", fix = { "damper_stop_rail", "further", 3 },
    source = "arithmetic: 3 mm short of the aim" },
  { "stop_rail", "once", reads = 7, want = "fail", why = "high", fix = { "damper_stop_rail", "nearer", 3 },
    source = "arithmetic: 3 mm past the aim" },
  { "stop_rail", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "damper_pedal_play", "once", reads = "ok", want = "pass", source = "common-practice" },
  { "damper_pedal_play", "once", reads = "none", want = "fail", why = "none", fix = { "damper_pedal_rod", "shorten" },
    source = "geometry" },
  { "damper_pedal_play", "once", reads = "much", want = "fail", why = "much", fix = { "damper_pedal_rod", "lengthen" },
    source = "geometry" },
  { "damper_pedal_play", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "soft_pedal_play", "once", reads = "1/8 in", want = "pass", source = "digest-2003-uprights" },
  { "soft_pedal_play", "once", reads = 0, want = "fail", why = "low", fix = { "soft_pedal_rod", "shorten" },
    source = "geometry" },
  { "soft_pedal_play", "once", reads = 8, want = "fail", why = "high", fix = { "soft_pedal_rod", "lengthen" },
    source = "geometry" },
  { "soft_pedal_play", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "soft_pedal", "once", reads = "ok", want = "pass", source = "handbook-servicing" },
  { "soft_pedal", "once", reads = "far", want = "fail", why = "far", fix = { "half_blow_stop", "nearer to the rail" },
    source = "common-practice: a stop or a pad, the rod only has its play" },
  { "soft_pedal", "once", reads = "short", want = "fail", why = "short",
    fix = { "half_blow_stop", "further from the rail" },
    source = "geometry" },
  { "soft_pedal", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "muffler_rail", "once", reads = "ok", want = "pass", source = "common-practice" },
  { "muffler_rail", "once", reads = "touches", want = "fail", why = "touches", source = "common-practice" },
  { "muffler_rail", "once", reads = nil, want = "missing", source = "book: no reading, no pass" },

  -- Weigh --------------------------------------------------------------------------------------

  { "downweight", "A0", reads = 52, want = "pass", source = "common-practice" },
  { "downweight", "A0", reads = 70, want = "fail", why = "high", source = "common-practice" },
  { "downweight", "A0", reads = 35, want = "pass", source = "common-practice: light is no fault by itself" },
  { "downweight", "A0", reads = nil, want = "missing", source = "book: no reading, no pass" },
  { "upweight", "A0", reads = 22, want = "pass", source = "common-practice" },
  { "upweight", "A0", reads = 12, want = "fail", why = "low", source = "common-practice" },
  { "upweight", "A0", reads = nil, want = "missing", source = "book: no reading, no pass" },

  { "mean_weight", "A0", with = { downweight = 52, upweight = 28 }, want = "pass",
    source = "list-2000-upright-weights: 34 to 40" },
  { "mean_weight", "A0", with = { downweight = 60, upweight = 30 }, want = "fail", why = "high",
    source = "list-2000-upright-weights: 45 g, look for a geometry fault" },
  { "mean_weight", "A0", with = { downweight = 46, upweight = 20 }, want = "fail", why = "low",
    source = "arithmetic: 33 g" },

  -- Finish -------------------------------------------------------------------------------------

  { "play_soft", "D4", reads = "double", want = "fail", why = "double", source = "book" },
  { "play_hard", "D4", reads = nil, want = "missing", source = "book: no reading, no pass" },
}
