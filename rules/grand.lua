-- The grand book: the steps in working order. Order inside a stage is advice, not a lock.
-- Do not edit shipped files. Write a shop book that says `use "grand"`, then what differs.
return book {
  id = "grand", api = 1, title = "Grand",
  about = "A modern grand with repetition levers. " ..
    "Why these values: docs/numbers.md. Their sources: docs/sources.md.",
  compass = "A0-C8",
  stale_share = 0.25,

  stage { "prepare", title = "Prepare",
    caution = "Unplug any heater or humidity system. Two people slide the action: " ..
      "no key down, hammers clear, mind fingers." },
  stage { "survey", title = "Measure before regulating",
    caution = "A measure that is out is told before work begins: no screw cures geometry." },
  stage { "keys", title = "Keys",
    caution = "Lift the stack with a straight back, or turn it in place. Old lead may be powdery: " ..
      "no dust, wash hands." },
  stage { "align", title = "Align hammers and whippens",
    caution = "Heat on shanks: no solvents near. Strings are under load." },
  stage { "set", title = "Set",
    caution = "Before the action slides in: no key down, hammers clear of the stretcher." },
  stage { "refine", title = "Refine in the piano",
    caution = "Loud test blows: mind your hearing." },
  stage { "dampers", title = "Dampers and pedals",
    caution = "Wire ends, tray and shift springs: mind your eyes. The lyre drops when freed." },
  stage { "weigh", title = "Weigh",
    caution = "Friction first, weigh again, only then weight. Lead: catch swarf, wash hands, local waste rules." },
  stage { "finish", title = "Play",
    caution = "Under warranty or hire, the maker's or owner's rules come before this book." },

  -- Schools: questions that the trade answers in more than one way, and this book's answers.
  use "common/schools",
  choice { "una_corda", "clear", title = "The shift pedal",
    options = { clear = "clears the left string", graze = "lets the hammer brush the left string" },
    source = "maker-shift-guide; list-1995-shift-half; list-1996-pedals" },
  choice { "pedal_lift", "less", title = "The pedal lifts dampers",
    options = { equal = "as far as the key does", less = "a hair less than the key does" },
    source = "list-1996-pedals; list-2006-pedal-lift; college-2010-dampers; handbook-1906" },

  use "facts",
  use "common/common_adjusters",
  use "adjusters",

  -- Prepare
  use "common/clean",
  use "common/screws",
  use "common/centres",
  use "common/key_spacing",
  use "common/key_easing",

  -- Measure: samples, all optional. What they give is stated as facts, and planned by.
  use "grand/string_height",
  use "grand/action_spread",
  use "grand/hammer_bore",
  use "grand/hanging_distance",
  use "grand/hammer_rake",
  use "grand/tail_length",
  use "grand/tail_arc",
  use "grand/knuckle_distance",
  use "grand/capstan_line",
  use "grand/weighed_capstan_ratio",
  use "grand/centre_friction",
  use "grand/hammer_weight",
  use "grand/whippen_weight",
  use "grand/key_front_load",
  use "grand/lead_in_key",

  -- Keys
  use "grand/bedding",
  use "grand/key_height",
  use "common/key_level",
  use "common/sharp_height",

  -- Align. Nothing puts the stack into the piano before it is ready to slide in.
  use "common/hammer_travel",
  use "common/hammer_squaring",
  use "grand/slide_in",
  use "common/hammer_spacing",
  use "grand/whippen_alignment",

  -- Set
  use "grand/jack_position",
  use "grand/spring_rough",
  use "grand/jack_height",
  use "grand/rest_rail_gap",
  use "grand/blow",
  use "common/let_off_rail_height",
  use "common/let_off",
  use "grand/drop",
  use "grand/let_off_and_drop",
  use "grand/strike_line",
  use "common/string_mating",
  change { "string_mating", stage = "set", why = "hammers are fitted to strings where they strike, so after the line" },
  use "common/key_dip",

  -- Refine: blow before checks, checks before springs.
  use "common/aftertouch",
  use "common/implied_travel_ratio",
  use "common/sharp_residue",
  use "grand/check_height",
  use "grand/check_angle",
  use "grand/tail_rub",
  use "common/checking",
  use "grand/check_forte",
  use "grand/repetition",
  use "grand/springs_alike",
  use "grand/key_stop_rail",

  -- Dampers and pedals
  use "grand/lyre_and_pedals",
  use "grand/damper_guides",
  use "grand/damper_seating",
  use "grand/underlevers_level",
  use "grand/sostenuto_tabs",
  use "grand/key_end_gap",
  use "grand/damper_key_timing",
  use "common/damper_start",
  use "common/damper_fraction",
  use "grand/tray_return",
  use "grand/pedal_free_play",
  use "grand/damper_tray_timing",
  use "grand/pedal_stop",
  use "grand/damper_lift",
  use "grand/up_stop",
  use "grand/sostenuto_gap",
  use "grand/sostenuto",
  use "grand/una_corda",
  use "grand/una_corda_pairs",
  use "grand/shift_travel",

  -- Weigh
  use "common/downweight",
  use "common/upweight",
  use "grand/friction",
  use "grand/mean_weight",
  use "grand/implied_leverage",

  -- Finish
  use "common/play_soft",
  use "common/play_hard",
  use "common/played_in",
  use "common/settled_level",
  use "common/tone",

  -- The school: aftertouch and blow are held, dip gives way, up to .010 in. One line in a shop book changes it.
  float { "key_dip", within = "0.25 mm" },

  acknowledge { "front_punching", "key_dip",
    why = "Dip floats in this school: aftertouch is made even by front papers, last, inside the float's limit." },
  acknowledge { "balance_punching", "key_level",
    why = "A sharp has a punching of its own; the naturals keep their level." },
  acknowledge { "capstan", "blow",
    why = "Second way for aftertouch, when the dip has no room left. Read the line again." },
  acknowledge { "damper_wire", "underlevers_level",
    why = "Second way for key timing, when felt can't do it. Look at the levers' line again." },
  acknowledge { "centre_pin", "centres", why = "Friction found by weighing is cured where it sits. " ..
    "Try the centre again." },
  acknowledge { "centre_pin", "downweight", why = "Friction first, then weigh again." },
  acknowledge { "centre_pin", "upweight", why = "Friction first, then weigh again." },
  acknowledge { "sostenuto_rod", "sostenuto_gap", why = "Both are read at the same visit to the rod." },
  acknowledge { "balance_punching", "key_height", why = "Levelling moves a sample by a paper's thickness or two." },
  acknowledge { "key_block", "bedding", why = "Tap the rails again where the action was moved." },
  acknowledge { "key_lead", "key_front_load", why = "The same grams, seen on the key alone." },
  acknowledge { "key_lead", "lead_in_key", why = "Add what was put in." },
  acknowledge { "key_lead", "downweight", why = "That is what it is for. Weigh again." },
  acknowledge { "key_lead", "upweight", why = "That is what it is for. Weigh again." },

  use "grand/leads",
  use "common/misreadings",
  use "grand/diagnosis",
}
