-- The upright's adjusters. Its mechanism is its own: the rest rail sets the blow, the capstan only takes up lost
-- motion. Past that point the capstan lifts the hammer off the rail: a kink, so lost motion is never aimed at zero.
local bench, in_piano, action_out, under = "bench", "in the piano", "action out", "under the piano"

return book {
  id = "upright_adjusters", api = 1, title = "Adjusters of an upright",

  -- Action and keys ----------------------------------------------------------------------------

  adjuster { "action_nuts", title = "action's top nuts", more = "tighten", less = "loosen", visit = in_piano,
    whole = true,
    moves = { action_bolts = "strong", strike_point = "slight" },
    source = "common-practice" },

  adjuster { "action_square", title = "action on its supports", more = "square", less = "shift", visit = in_piano,
    whole = true,
    moves = { action_bolts = "strong", strike_point = "strong", hammer_spacing = "strong", lost_motion = "strong",
      hammers_on_rail = "strong", soft_pedal_play = "strong" },
    source = "common-practice" },

  -- By its supports. The capstans stay below, so lost motion grows as the action rises.
  adjuster { "action_height", title = "action", more = "raise", less = "lower", visit = in_piano,
    whole = true,
    moves = { strike_point = "down", action_bolts = "strong", lost_motion = "up", hammers_on_rail = "strong",
      damper_key_timing = "strong", damper_start = "strong", soft_pedal_play = "strong" },
    why = "Raised, the hammer strikes nearer to the bar.",
    source = "page-2011-upright" },

  adjuster { "frame_shim", title = "keyframe", more = "shim", less = "lower", visit = action_out, whole = true,
    moves = { bedding = "strong", key_height = "strong", key_level = "strong", sharp_height = "strong",
      key_dip = "strong", lost_motion = "strong", hammers_on_rail = "strong" },
    source = "common-practice" },

  -- The keys' backs lie on it: a thicker cloth lowers the fronts and lifts the capstans.
  adjuster { "back_rail_cloth", title = "back rail cloth", more = "thicken", less = "thin", unit = "mm",
    finest = "0.1 mm", reach = "1.5 mm", visit = action_out, whole = true,
    moves = {
      key_height = "strong",
      key_dip = "-(key_front / key_back)",
      lost_motion = "-(key_capstan / key_back) / capstan_ratio",
      sharp_height = "slight", key_level = "slight", hammers_on_rail = "strong",
      damper_key_timing = "strong", damper_start = "down",
    },
    assumed = true, source = "geometry" },

  -- A grand's keys are worked on with the stack off, an upright's with the whole action out.
  adjuster { "pin_bend", visit = action_out },
  adjuster { "key_bushing", visit = action_out },
  adjuster { "balance_bushing", visit = action_out },
  adjuster { "balance_hole", visit = action_out },
  adjuster { "balance_punching", visit = action_out,
    moves = {
      lost_motion = "-(1 - key_capstan / key_back) / capstan_ratio",
      checking = { "-(key_front / key_back + key_front / key_pin)", assumed = true, again = true },
      key_height = "slight", hammers_on_rail = "strong",
    } },

  -- Hammers and whippens -----------------------------------------------------------------------

  -- These are reached with the action where it is.
  adjuster { "flange_screws", visit = in_piano },
  adjuster { "shank_twist", visit = in_piano },

  adjuster { "centre_pin", moves = { hammer_spring_feel = "strong", hammers_on_rail = "strong", jack_return = "strong",
    whippen_alignment = "slight" } },

  -- The flange is screwed to the player's side of its rail, so paper under one side turns the hammer's path to that
  -- side: the other way than on a grand. No source was found, so one note is tried first.
  adjuster { "travel_paper", title = "butt flange", verb = "paper", more = "on its right side",
    less = "on its left side", visit = in_piano,
    moves = { hammer_travel = "strong", hammer_squaring = "strong", hammer_spacing = "slight" },
    assumed = true, source = "geometry" },

  adjuster { "hammer_flange", title = "butt flange", verb = "shift", more = "to the right", less = "to the left",
    visit = in_piano,
    moves = { hammer_spacing = "strong", whippen_alignment = "strong", hammer_travel = "slight",
      string_mating = "slight" },
    source = "page-grand-detail: part 8" },

  adjuster { "whippen_flange", title = "whippen flange", verb = "shift", more = "to the right", less = "to the left",
    visit = bench,
    moves = { whippen_alignment = "strong", check_alignment = "strong", damper_key_timing = "slight" },
    why = "The check goes with its whippen.",
    source = "common-practice" },

  adjuster { "hammer_spring", title = "butt spring", verb = "make", more = "stronger", less = "weaker", unit = "step",
    finest = 1, visit = bench,
    moves = { hammer_spring_feel = "strong", hammers_on_rail = "slight", downweight = "up", upweight = "up" },
    why = "One small step, then judge again.",
    source = "page-2001-butt-springs; list-2006-upright-touch" },

  adjuster { "jack_spring", title = "jack spring", verb = "make", more = "stronger", less = "weaker", unit = "step",
    finest = 1, visit = bench,
    moves = { jack_spring_feel = "strong", jack_return = "strong", downweight = "slight", upweight = "slight" },
    why = "One small step, then judge again.",
    source = "common-practice" },

  adjuster { "butt_leather", title = "butt's leather", more = "renew", less = "brush", visit = bench,
    moves = { leathers = "strong", let_off = "strong", lost_motion = "strong", jack_return = "strong",
      jack_clearance = "strong" },
    source = "common-practice" },

  adjuster { "catcher_leather", title = "catcher's leather", more = "renew", less = "brush", visit = bench,
    moves = { leathers = "strong", check_alignment = "slight", checking = "strong" },
    source = "common-practice" },

  -- Rail, capstan, let-off, check --------------------------------------------------------------

  adjuster { "rail_cushion", title = "rest rail's cushion", more = "renew", less = "glue down", visit = bench,
    whole = true,
    moves = { rail_cushions = "strong", blow = "strong", lost_motion = "strong", hammers_on_rail = "strong" },
    source = "common-practice" },

  -- The rail carries the hammers, so shimming it forward leaves the jacks behind: lost motion grows by as much. Where
  -- the damper starts stays in its place, which is then nearer to the rail.
  adjuster { "rest_rail", title = "rest rail", verb = "set", more = "toward the strings",
    less = "away from the strings", unit = "mm", finest = "0.5 mm", reach = "8 mm", visit = in_piano, whole = true,
    moves = { blow = -1, lost_motion = "1 / travel_ratio", damper_start = -1, damper_key_timing = "strong",
      hammers_on_rail = "strong", soft_pedal_play = "strong", soft_pedal = "strong", bridle_straps = "strong" },
    why = "By cushions or shims. It carries all hammers of its section.",
    source = "digest-2010-upright; list-1998-upright; digest-2003-uprights; page-2011-upright" },

  adjuster { "capstan", title = "capstan", more = "raise", less = "lower", unit = "turn", finest = 1/8,
    reach = "4 turn", visit = in_piano,
    moves = { lost_motion = "-capstan_pitch / capstan_ratio", hammers_on_rail = "strong", checking = "down",
      jack_return = "strong", damper_key_timing = "strong", damper_start = "down" },
    why = "It takes up lost motion, a quarter turn at a time. Past that it lifts the hammer off the rail.",
    assumed = true, source = "common-practice" },

  adjuster { "let_off_button", title = "let-off button", more = "raise", less = "lower", unit = "turn", finest = 1/16,
    reach = "3 turn", visit = in_piano,
    moves = { let_off = "-let_off_turn", jack_clearance = "slight" },
    why = "Raised, the jack stays longer and the hammer comes closer.",
    assumed = true, source = "geometry; common-practice: the size" },

  adjuster { "let_off_rail", title = "let-off rail", more = "raise", less = "lower", visit = in_piano, whole = true,
    moves = { let_off_rail_height = "strong", let_off = "down", jack_clearance = "slight" },
    source = "geometry" },

  adjuster { "check_head", title = "check on its catcher", more = "square", less = "turn", visit = in_piano,
    moves = { check_alignment = "strong", checking = "strong" },
    source = "common-practice" },

  adjuster { "backcheck_wire", title = "backcheck", verb = "bend", more = "toward the catcher",
    less = "away from the catcher", unit = "mm", finest = "0.5 mm", reach = "8 mm", visit = in_piano,
    moves = { checking = { "-check_bend", way = "down" }, check_alignment = "slight" },
    why = "Low on its wire, so that it stays square. How far is for the hand to find.",
    assumed = true, source = "geometry" },

  adjuster { "jack_stop_rail", title = "jack stop rail", verb = "set", more = "toward the jacks",
    less = "away from the jacks", visit = in_piano, whole = true,
    moves = { jack_stop = "strong", jack_return = "strong", jack_clearance = "strong" },
    source = "common-practice" },

  adjuster { "bridle_wire", title = "bridle wire", verb = "bend", more = "toward the hammers",
    less = "away from the hammers", visit = in_piano,
    moves = { bridle_straps = "strong" },
    why = "Toward the hammers gives slack, away takes it up.",
    source = "list-2005-bridle; digest-1998-bridle" },

  -- Dampers and pedals -------------------------------------------------------------------------

  adjuster { "damper_centre", title = "damper lever's centre", more = "free", less = "firm", visit = bench,
    moves = { damper_seating = "strong", damper_lift_together = "slight" },
    source = "common-practice" },

  adjuster { "damper_head", title = "damper head", more = "square", less = "turn", visit = in_piano,
    moves = { damper_seating = "strong", damper_lift_together = "strong" },
    source = "common-practice" },

  adjuster { "damper_wire", title = "damper wire", verb = "bend", more = "toward the strings",
    less = "away from the strings", visit = in_piano,
    moves = { damper_lift_together = "strong", damper_key_timing = "strong", damper_start = "up",
      damper_seating = "strong" },
    why = "Toward the strings presses the head on, so it leaves later.",
    source = "digest-1997-dampers; forum-vertical-dampers" },

  adjuster { "spoon", title = "spoon", verb = "bend", more = "toward its lever", less = "away from its lever",
    visit = bench,
    moves = { damper_key_timing = "strong", damper_start = "down" },
    why = "Toward the lever, the damper starts earlier. Too far, and it holds the damper off at rest.",
    source = "digest-2000-dampers; list-2001-spoons; list-1998-upright; forum-vertical-dampers: two thirds" },

  adjuster { "damper_stop_rail", title = "damper stop rail", verb = "set", more = "further", less = "nearer",
    unit = "mm", finest = "0.5 mm", reach = "6 mm", visit = in_piano, whole = true,
    moves = { stop_rail = 1 },
    source = "list-2004-stop-rail" },

  adjuster { "damper_pedal_rod", title = "damper pedal rod", more = "lengthen", less = "shorten", visit = under,
    whole = true,
    moves = { damper_pedal_play = "strong", damper_seating = "slight", stop_rail = "down" },
    why = "Lengthened, the pedal lifts sooner and further.",
    source = "geometry" },

  adjuster { "soft_pedal_rod", title = "soft pedal rod", more = "lengthen", less = "shorten", unit = "mm",
    finest = "0.5 mm", reach = "10 mm", visit = under, whole = true,
    moves = { soft_pedal_play = -1, blow = "slight", soft_pedal = "strong", bridle_straps = "strong" },
    source = "digest-2003-uprights; common-practice: the band" },

  adjuster { "half_blow_stop", title = "half-blow stop or pad", verb = "set", more = "further from the rail",
    less = "nearer to the rail", visit = in_piano, whole = true,
    moves = { soft_pedal = "strong", bridle_straps = "strong", compensator = "strong" },
    source = "common-practice" },

  adjuster { "compensator_rod", title = "compensator's rod", more = "lengthen", less = "shorten", visit = in_piano,
    whole = true,
    moves = { compensator = "strong", lost_motion = "slight" },
    source = "geometry" },
}
