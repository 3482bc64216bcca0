-- The upright book: the steps in working order. Order inside a stage is advice, not a lock.
-- Keys are levelled before lost motion: the other order, also published, spoils what was just taken up.
return book {
  id = "upright", api = 1, title = "Upright",
  about = "A modern upright with its capstans on the keys. " ..
    "Why these values: docs/numbers.md. Their sources: docs/sources.md.",
  compass = "A0-C8",
  stale_share = 0.25,

  stage { "prepare", title = "Prepare",
    caution = "Unplug any heater or humidity system. Support the action before you free it. " ..
      "A tilted upright falls backwards." },
  stage { "keys", title = "Keys", caution = "Old lead may be powdery: no dust, wash hands." },
  stage { "align", title = "Align hammers and whippens",
    caution = "Heat on shanks: no solvents near. Strings are under load." },
  stage { "set", title = "Set" },
  stage { "refine", title = "Refine", caution = "Loud test blows: mind your hearing." },
  stage { "dampers", title = "Dampers and pedals", caution = "Wire ends and springs: mind your eyes." },
  stage { "weigh", title = "Weigh", caution = "Friction first, weigh again, only then weight." },
  stage { "finish", title = "Play",
    caution = "Under warranty or hire, the maker's or owner's rules come before this book." },

  -- Schools: questions that the trade answers in more than one way, and this book's answers.
  use "common/schools",
  choice { "damper_start_at", "half", title = "Dampers start",
    options = { half = "when the hammer is half way", two_thirds = "when the hammer is two thirds of the way" },
    source = "digest-2000-dampers; list-2001-spoons; list-1998-upright; forum-vertical-dampers: two thirds" },

  use "upright_facts",
  use "common/common_adjusters",
  use "upright_adjusters",

  -- Prepare
  use "common/screws",
  use "upright/action_bolts",
  use "common/centres",
  use "upright/bedding",
  use "upright/strike_point",
  use "common/key_spacing",
  use "common/key_easing",

  -- Keys
  use "upright/key_height",
  use "common/key_level",
  use "common/sharp_height",

  -- Align
  use "common/hammer_travel",
  use "common/hammer_squaring",
  use "common/hammer_spacing",
  use "common/string_mating",
  use "upright/whippen_alignment",
  use "upright/check_alignment",

  -- Set
  use "upright/hammer_spring_feel",
  use "upright/blow",
  use "upright/lost_motion",
  use "upright/hammers_on_rail",
  use "upright/let_off",
  use "upright/key_dip",

  -- Refine
  use "upright/aftertouch",
  use "common/implied_travel_ratio",
  use "upright/jack_clearance",
  use "common/sharp_residue",
  use "upright/checking",
  use "upright/jack_return",
  use "upright/bridle_straps",

  -- Dampers and pedals
  use "upright/damper_seating",
  use "upright/damper_lift_together",
  use "upright/damper_key_timing",
  use "upright/damper_start",
  use "upright/damper_fraction",
  use "upright/stop_rail",
  use "upright/damper_pedal_play",
  use "upright/soft_pedal_play",
  use "upright/soft_pedal",
  use "upright/muffler_rail",

  -- Weigh
  use "upright/downweight",
  use "upright/upweight",
  use "upright/friction",
  use "upright/mean_weight",

  -- Finish
  use "common/play_soft",
  use "common/play_hard",

  use "common/misreadings",
  use "upright/diagnosis",

  -- The school: aftertouch and blow are held, dip gives way, up to .010 in. One line in a shop book changes it.
  float { "key_dip", within = "0.25 mm" },

  acknowledge { "front_punching", "key_dip",
    why = "Dip floats in this school: aftertouch is made even by front papers, last, inside the float's limit." },
  acknowledge { "balance_punching", "key_level",
    why = "A sharp has a punching of its own; the naturals keep their level." },
  acknowledge { "capstan", "lost_motion",
    why = "Lost motion and the hammer's place on the rail are the two sides of one screw. Read both again." },
  acknowledge { "capstan", "hammers_on_rail", why = "Second way for aftertouch and jack. Look at the rail again." },
  acknowledge { "action_height", "action_bolts", why = "The same supports. Try that the action stands firm again." },
  acknowledge { "soft_pedal_rod", "soft_pedal_play", why = "One rod, two readings: play first, then half blow." },
  acknowledge { "capstan", "checking", why = "A jack that hangs comes before the check. Read the check again." },
}
