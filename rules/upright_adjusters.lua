-- The upright's adjusters. Its mechanism is its own: the rest rail sets the blow, the capstan only takes up lost
-- motion. Past that point the capstan lifts the hammer off the rail: a kink, so lost motion is never aimed at zero.
local bench, in_piano, under = "bench", "in the piano", "under the piano"

return book {
  id = "upright_adjusters", api = 1, title = "Adjusters of an upright",

  -- Action and keys ----------------------------------------------------------------------------

  -- By its supports. The capstans stay below, so lost motion grows as the action rises.
  adjuster { "action_height", title = "action on its supports", more = "raise", less = "lower", visit = bench,
    whole = true,
    moves = { strike_point = "down", action_bolts = "strong", lost_motion = "up", hammers_on_rail = "strong",
      damper_key_timing = "strong" },
    why = "Raised, the hammer strikes nearer to the bar.",
    source = "page-2011-upright" },

  adjuster { "balance_punching",
    moves = {
      lost_motion = "-(1 - key_capstan / key_back) / capstan_ratio",
      checking = { "-(key_front / key_back + key_front / key_pin)", assumed = true, again = true },
      key_height = "slight", hammers_on_rail = "strong",
    } },

  -- Hammers and whippens -----------------------------------------------------------------------

  adjuster { "centre_pin", moves = { jack_return = "strong", whippen_alignment = "slight" } },

  adjuster { "travel_paper", title = "butt flange", verb = "paper", more = "on its right side",
    less = "on its left side", visit = bench,
    moves = { hammer_travel = "strong", hammer_squaring = "strong", hammer_spacing = "slight" },
    source = "list-1995-travel" },

  adjuster { "hammer_flange", title = "butt flange", verb = "shift", more = "to the right", less = "to the left",
    visit = in_piano,
    moves = { hammer_spacing = "strong", whippen_alignment = "strong", string_mating = "slight" },
    source = "page-grand-detail: part 8" },

  adjuster { "whippen_flange", title = "whippen flange", verb = "shift", more = "to the right", less = "to the left",
    visit = bench,
    moves = { whippen_alignment = "strong", damper_key_timing = "slight" },
    source = "common-practice" },

  adjuster { "hammer_spring", title = "butt spring", verb = "make", more = "stronger", less = "weaker", unit = "step",
    finest = 1, visit = bench,
    moves = { hammer_spring_feel = "strong", downweight = "slight", upweight = "slight" },
    why = "One small step, then judge again.",
    source = "page-2001-butt-springs; list-2006-upright-touch" },

  -- The rail carries the hammers, so shimming it forward leaves the jacks behind: lost motion grows by as much.
  adjuster { "rest_rail", title = "rest rail", verb = "set", more = "toward the strings",
    less = "away from the strings", unit = "mm", finest = "0.5 mm", visit = in_piano, whole = true,
    moves = { blow = -1, lost_motion = "1 / travel_ratio", hammers_on_rail = "slight", soft_pedal = "slight" },
    why = "By cushions or shims. It carries all hammers of its section.",
    source = "digest-2010-upright; list-1998-upright; digest-2003-uprights; page-2011-upright" },

  adjuster { "capstan", title = "capstan", more = "raise", less = "lower", unit = "turn", finest = 1/8,
    reach = "4 turn", visit = in_piano,
    moves = { lost_motion = "-capstan_pitch / capstan_ratio", hammers_on_rail = "strong", checking = "strong",
      jack_return = "strong", damper_key_timing = "strong", damper_start = "strong" },
    why = "It takes up lost motion. Past that it lifts the hammer off the rail.",
    assumed = true, source = "common-practice" },

  adjuster { "let_off_button", title = "let-off button", more = "raise", less = "lower", unit = "turn", finest = 1/8,
    reach = "4 turn", visit = in_piano,
    moves = { let_off = "-let_off_turn", jack_clearance = "slight" },
    why = "Raised, the jack stays longer and the hammer comes closer.",
    assumed = true, source = "common-practice" },

  adjuster { "backcheck_wire", title = "backcheck", verb = "bend", more = "toward the catcher",
    less = "away from the catcher", unit = "mm", finest = "0.5 mm", reach = "8 mm", visit = in_piano,
    moves = { checking = "-check_bend", check_alignment = "slight" },
    assumed = true, source = "common-practice" },

  adjuster { "bridle_wire", title = "bridle wire", verb = "bend", more = "toward the hammers",
    less = "away from the hammers", visit = in_piano,
    moves = { bridle_straps = "strong" },
    why = "Toward the hammers gives slack, away takes it up.",
    source = "list-2005-bridle; digest-1998-bridle" },

  -- Dampers and pedals -------------------------------------------------------------------------

  adjuster { "damper_wire", title = "damper wire", verb = "bend", more = "toward the strings",
    less = "away from the strings", visit = in_piano,
    moves = { damper_lift_together = "strong", damper_key_timing = "strong", damper_start = "strong",
      damper_seating = "slight" },
    why = "Toward the strings presses the head on, so it leaves later.",
    source = "digest-1997-dampers; forum-vertical-dampers" },

  adjuster { "spoon", title = "spoon", verb = "bend", more = "toward its lever", less = "away from its lever",
    visit = bench,
    moves = { damper_key_timing = "strong", damper_start = "strong" },
    why = "Toward the lever, the damper starts earlier.",
    source = "digest-2000-dampers; list-2001-spoons; list-1998-upright; forum-vertical-dampers: two thirds" },

  adjuster { "damper_stop_rail", title = "damper stop rail", verb = "set", more = "further", less = "nearer",
    unit = "mm", finest = "0.5 mm", visit = in_piano, whole = true,
    moves = { stop_rail = 1 },
    source = "list-2004-stop-rail" },

  adjuster { "damper_pedal_rod", title = "damper pedal rod", more = "lengthen", less = "shorten", visit = under,
    whole = true,
    moves = { damper_pedal_play = "strong", stop_rail = "slight" },
    source = "common-practice" },

  adjuster { "soft_pedal_rod", title = "soft pedal rod", more = "lengthen", less = "shorten", unit = "mm",
    finest = "0.5 mm", visit = under, whole = true,
    moves = { soft_pedal_play = -1, soft_pedal = "strong", bridle_straps = "slight" },
    source = "digest-2003-uprights; common-practice: the band" },
}
