-- The grand's adjusters: what a technician turns, shims, bends or moves, and what each one moves.
-- A number or formula: the step's units for one unit of the adjuster, in its `more` direction.
-- "up" or "down": the way is known, how far is for the hand to find. "strong": read that step again.
-- "slight": worth a note only.
-- Aftertouch never stands here: it follows from its model. So does every derived step.
local bench, in_piano, stack_off, under = "bench", "in the piano", "stack off", "under the piano"

return book {
  id = "adjusters", api = 1, title = "Adjusters of a grand",

  -- Frame and keys ---------------------------------------------------------------------------

  adjuster { "glide", title = "glide bolt", more = "lower", less = "raise", visit = in_piano, whole = true,
    moves = { bedding = "strong", key_height = "strong", key_level = "strong", key_dip = "strong", blow = "strong" },
    why = "An eighth of a turn is much: its thread is coarse.",
    source = "articles-grand-steps: parts 9, 14, 17; page-service; common-practice: hold-downs and key blocks" },

  -- The whole action, in or out at its blocks: it strikes elsewhere, and its keys meet other parts of the dampers.
  adjuster { "key_block", title = "action at its key blocks", verb = "move", more = "in", less = "out",
    visit = in_piano, whole = true,
    moves = { strike_line = "strong", hammer_spacing = "slight", string_mating = "strong", bedding = "strong",
      damper_key_timing = "strong", una_corda = "slight" },
    why = "In: away from the player.",
    source = "common-practice" },

  adjuster { "back_rail_cloth", title = "back rail cloth", more = "thicken", less = "thin", unit = "mm",
    finest = "0.1 mm", reach = "2 mm", visit = stack_off, whole = true,
    moves = {
      key_height = "-(key_front / key_back)",
      key_dip = "-(key_front / key_back)",
      blow = "-(key_capstan / key_back) * travel_ratio / capstan_ratio",
      rest_rail_gap = "0.75 * (key_capstan / key_back) * travel_ratio / capstan_ratio",
      key_end_gap = "down", damper_key_timing = "strong", damper_start = "down",
      sharp_height = "slight", key_level = "slight",
    },
    assumed = true, source = "geometry; list-2002-key-papers" },

  adjuster { "balance_punching",
    moves = {
      key_height = "1 + key_front / key_back",
      blow = "-(1 - key_capstan / key_back) * travel_ratio / capstan_ratio",
      rest_rail_gap = "0.75 * (1 - key_capstan / key_back) * travel_ratio / capstan_ratio",
      -- the key goes deeper by what the dip gains, and its check goes up with its back
      checking = { "-(key_front / key_back + key_front / key_pin)", assumed = true, again = true },
    } },

  adjuster { "front_punching", moves = { up_stop = "strong", pedal_stop = "strong" } },

  adjuster { "key_stop", title = "key stop rail", more = "raise", less = "lower", visit = in_piano, whole = true,
    moves = { key_stop_rail = "strong", key_level = "slight" },
    why = "By its nuts; lock them.",
    source = "common-practice" },

  -- Whippen, jack, lever -----------------------------------------------------------------------

  adjuster { "centre_pin", moves = { repetition = "strong", whippen_alignment = "slight" },
    why = "Try hammer, whippen and key bushing in turn. Weigh again, and only then think of weight." },

  adjuster { "jack_button", title = "jack", verb = "set", more = "in", less = "out", visit = bench,
    moves = { jack_position = "strong", jack_height = "strong", let_off = "strong" },
    why = "In: further under the knuckle. Out: toward its edge.",
    source = "page-grand-detail: part 6; list-2001-jack" },

  adjuster { "repetition_spring", title = "repetition spring", verb = "make", more = "stronger", less = "weaker",
    unit = "step", finest = 1, visit = bench,
    moves = { repetition = "strong", spring_rough = "strong", jack_height = "slight", drop = "slight" },
    why = "One small step, then judge again.",
    source = "page-grand-parts: part XXIII; list-2006-spring" },

  -- In mm at the lever's top; nobody has published a turn. The lever carries the knuckle, so the line goes with it.
  adjuster { "lever_height_button", title = "repetition lever", more = "raise", less = "lower", unit = "mm",
    finest = "0.1 mm", reach = "1.5 mm", visit = bench,
    moves = { jack_height = 1, blow = "down", rest_rail_gap = "up", repetition = "strong", drop = "slight" },
    source = "page-grand-parts: part X; maker-regulation; common-practice: the band" },

  -- Hammer -------------------------------------------------------------------------------------

  -- The flange lies on its rail: paper under one side tips its pin, and the hammer's path, to the other.
  adjuster { "travel_paper", title = "hammer flange", verb = "paper", more = "on its right side",
    less = "on its left side",
    visit = bench,
    moves = { hammer_travel = "strong", hammer_squaring = "strong", hammer_spacing = "slight" },
    why = "Paper under that side of the flange tips the hammer's path the other way.",
    source = "list-1995-travel" },

  adjuster { "hammer_flange", title = "hammer flange", verb = "shift", more = "to the right", less = "to the left",
    visit = bench,
    moves = { hammer_spacing = "strong", whippen_alignment = "strong", hammer_travel = "slight",
      string_mating = "slight" },
    source = "page-grand-detail: part 8" },

  adjuster { "whippen_flange", title = "whippen flange", verb = "shift", more = "to the right", less = "to the left",
    visit = bench,
    moves = { whippen_alignment = "strong", jack_position = "slight" },
    source = "page-grand-detail: part 8" },

  -- Capstan up: the resting hammer rises, and its shank off the cushion with it. Let-off and drop stay, they are
  -- places against fixed buttons.
  adjuster { "capstan", title = "capstan", more = "raise", less = "lower", unit = "turn", finest = 1/16,
    reach = "4 turn", visit = bench,
    moves = {
      blow = "-capstan_pitch * travel_ratio / capstan_ratio",
      rest_rail_gap = "0.75 * capstan_pitch * travel_ratio / capstan_ratio",
    },
    assumed = true, source = "common-practice",
    why = "An eighth is the usual step, a sixteenth the finest that a hand can do." },

  adjuster { "rest_rail", title = "rest rail", more = "raise", less = "lower", unit = "mm", finest = "0.5 mm",
    reach = "8 mm", visit = bench, whole = true,
    moves = { rest_rail_gap = -1 },
    source = "maker-2013-manual; page-2014-blog; college-2009-rest-rail; list-2010-models" },

  -- The button's place is where the hammer leaves off. Drop is counted from there; the lever still rises a little
  -- after its screw has stopped it, so drop loses less than let-off gains.
  adjuster { "let_off_button", title = "let-off button", more = "lower", less = "raise", unit = "turn", finest = 1/16,
    reach = "3 turn", visit = in_piano,
    moves = { let_off = "let_off_turn", drop = "-0.7 * let_off_turn" },
    assumed = true, source = "common-practice" },

  adjuster { "let_off_rail", title = "let-off rail", more = "raise", less = "lower", visit = bench, whole = true,
    moves = { let_off_rail_height = "strong", let_off = "down", drop = "up" },
    source = "common-practice" },

  adjuster { "drop_screw", title = "drop screw", more = "lower", less = "raise", unit = "turn", finest = 1/16,
    reach = "3 turn", visit = in_piano,
    moves = { drop = "drop_turn", let_off = "slight", repetition = "slight" },
    why = "If there was hardly any drop, read let-off again: the lever may have carried the hammer.",
    assumed = true, source = "common-practice" },

  -- Backcheck: judged in the piano, bent with the action out. ----------------------------------

  adjuster { "backcheck", title = "backcheck", verb = "bend", more = "toward the tail", less = "away from the tail",
    unit = "mm", finest = "0.5 mm", reach = "8 mm", visit = bench,
    moves = { checking = { "-check_bend", way = "down" }, check_forte = "strong", repetition = "strong",
      tail_rub = "strong", check_angle = "slight" },
    why = "Low on its wire, so that the face keeps its angle. How far is for the hand to find.",
    assumed = true, source = "common-practice" },

  adjuster { "check_wire", title = "backcheck on its wire", more = "raise", less = "lower", visit = bench,
    moves = { check_height = "strong", checking = "strong", check_forte = "strong", tail_rub = "strong" },
    source = "list-2003-checks; college-2007-checks" },

  adjuster { "check_head", title = "backcheck face", verb = "make", more = "lean toward the tail",
    less = "more upright", visit = bench,
    moves = { check_angle = "strong", checking = "strong", check_forte = "strong", tail_rub = "strong" },
    source = "list-2003-checks; college-2007-checks; articles-checking" },

  -- Dampers and pedals -------------------------------------------------------------------------

  -- When the key lifts the damper: felt at the key's end. It leaves the levers' line alone.
  adjuster { "key_end_felt", title = "key-end felt", more = "thicken", less = "thin", visit = in_piano,
    moves = { key_end_gap = "down", damper_key_timing = "strong", damper_start = "down", pedal_stop = "strong",
      up_stop = "strong" },
    source = "page-grand-guide: part XXIX; journal-damper-steps; list-2005-damper-timing; maker-damper-class" },

  -- The set screw at the underlever: the lever sits higher or lower on the wire. It moves both timings and the tab.
  adjuster { "damper_wire", title = "underlever on its wire", more = "raise", less = "lower", visit = in_piano,
    moves = { underlevers_level = "strong", key_end_gap = "up", damper_key_timing = "strong", damper_start = "up",
      damper_tray_timing = "strong", sostenuto_tabs = "strong", sostenuto = "strong" },
    why = "Raised, the lever waits longer for the key.",
    source = "page-grand-guide: part XXIX; journal-damper-steps; list-2005-damper-timing; maker-damper-class" },

  -- When the tray lifts the damper: the underlever's own capstan. It does not touch key timing.
  adjuster { "underlever_capstan", title = "underlever capstan", verb = "turn", more = "toward the tray",
    less = "away from the tray", visit = in_piano,
    moves = { damper_tray_timing = "strong" },
    source = "college-2010-dampers; maker-damper-class" },

  adjuster { "pedal_rod", title = "damper pedal rod", more = "lengthen", less = "shorten", visit = under, whole = true,
    moves = { pedal_free_play = "down", pedal_stop = "strong", damper_lift = "up" },
    why = "Longer, the tray is met sooner.",
    source = "common-practice" },

  adjuster { "pedal_stop_screw", title = "pedal stop", more = "raise", less = "lower", visit = under, whole = true,
    moves = { pedal_stop = "strong", damper_lift = "up", up_stop = "strong", sostenuto = "slight" },
    why = "Raised, it lets the tray lift further.",
    source = "list-1996-pedals; list-2006-pedal-lift; college-2010-dampers; handbook-1906" },

  adjuster { "up_stop_rail", title = "up-stop rail", more = "raise", less = "lower", visit = in_piano, whole = true,
    moves = { up_stop = "strong", key_dip = "slight", sostenuto = "strong" },
    source = "college-2010-dampers; list-1995-up-stop" },

  adjuster { "sostenuto_rod", title = "sostenuto rod", verb = "set", more = "further", less = "nearer",
    visit = in_piano, whole = true, unit = "mm", finest = "0.1 mm", reach = "4 mm",
    moves = { sostenuto_gap = 1, sostenuto = "strong" },
    source = "list-1999-sostenuto; common-practice: the band" },

  adjuster { "shift_stop", title = "shift travel", verb = "make", more = "further", less = "shorter", visit = in_piano,
    whole = true,
    moves = { una_corda = "strong", shift_travel = "up", una_corda_pairs = "strong" },
    source = "maker-shift-guide; list-1995-shift-half; list-1996-pedals" },

  -- Weight -------------------------------------------------------------------------------------

  -- In grams of effect at the key front: where the lead goes and what it weighs is a plan of its own.
  adjuster { "key_lead", title = "key front", verb = "make", more = "heavier", less = "lighter", unit = "g",
    finest = "0.5 g", reach = "30 g", irreversible = true, visit = stack_off,
    moves = { downweight = -1, upweight = -1, key_front_load = 1, lead_in_key = "strong" },
    why = "By key lead, after friction is right and weighed again.",
    source = "college-weights; list-1995-lead-law; geometry" },
}
