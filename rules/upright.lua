-- The upright book: the steps in working order. Order inside a stage is advice, not a lock.
-- Keys are levelled before lost motion: the other order, also published, spoils what was just taken up.
return book {
  id = "upright", api = 1, title = "Upright",
  about = "A modern upright with its capstans on the keys. " ..
    "Why these values: docs/numbers.md. Their sources: docs/sources.md.",
  compass = "A0-C8",
  stale_share = 0.25,

  stage { "prepare", title = "Preparation in the piano",
    caution = "Unplug any heater or humidity system. A tilted upright falls backwards: nobody behind it." },
  stage { "align", title = "Hammers to their strings",
    caution = "Heat on shanks: no solvents near. Strings are under load." },
  stage { "bench", title = "Bench: whippens, springs, leather",
    caution = "Support the action before you free it: it falls toward you. Set it in a cradle, hammers clear." },
  stage { "keys", title = "Keys, action out", caution = "Old lead may be powdery: no dust, wash hands." },
  stage { "set", title = "Setting, action in",
    caution = "Ease the action in: dampers clear of the strings, no key down, bridle straps not caught." },
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

  -- In the piano. Rods and pedals have their play before anything is read: one that holds a rail falsifies it.
  use "common/clean",
  use "common/screws",
  use "upright/action_bolts",
  use "common/centres",
  use "upright/strike_point",
  use "upright/soft_pedal_play",
  use "upright/damper_pedal_play",

  -- Hammers, to their strings. Before the jacks, or these are done twice.
  use "common/hammer_travel",
  change { "hammer_travel", faults = {
    { "left", means = "drifts left on its way", fix = { { "travel_paper", "on its right side" } },
      todo = "Try one note first: where the flange is screwed on from the strings' side, paper the other side." },
    { "right", means = "drifts right on its way", fix = { { "travel_paper", "on its left side" } },
      todo = "Try one note first: where the flange is screwed on from the strings' side, paper the other side." },
  }, why = "the flange sits on the player's side of its rail, the other way round than a grand's" },
  use "common/hammer_squaring",
  use "common/hammer_spacing",

  -- Bench. The action goes out here, and once more for the spoons.
  use "upright/whippen_alignment",
  use "upright/check_alignment",
  use "upright/leathers",
  use "upright/rail_cushions",
  use "upright/stickers",
  use "upright/spring_loops",
  use "upright/hammer_spring_feel",
  use "upright/jack_spring_feel",

  -- Keys
  use "upright/bedding",
  use "common/key_spacing",
  change { "key_spacing", stage = "keys", why = "an upright's keys come off when its action is out" },
  use "common/key_easing",
  change { "key_easing", stage = "keys", why = "an upright's keys come off when its action is out" },
  use "upright/key_height",
  use "common/key_level",
  use "common/sharp_height",

  -- Set, action in
  use "common/string_mating",
  change { "string_mating", stage = "set", why = "hammers are fitted to strings where they strike" },
  use "upright/hammers_on_rail",
  use "upright/blow",
  use "upright/lost_motion",
  use "common/let_off_rail_height",
  use "common/let_off",
  change { "let_off", target = graded { { "A0", range(2.4, 3.4, 3) }, { "C8", range(1.5, 2.6, 2) } }, even = 0.5,
    source = "list-1998-upright; digest-2010-upright; page-regulating: outer limits; common-practice: the bands",
    why = "wider than a grand's: 3 mm in the bass to 2 at the top" },
  use "common/key_dip",
  change { "key_dip", target = by_colour { naturals = range(9.9, 10.5, 10), sharps = range(9.4, 10.4, 10) },
    source = "list-1998-upright; digest-2010-upright; geometry: sharps", why = "10.0 to 10.5 on uprights" },

  -- Refine
  use "common/aftertouch",
  change { "aftertouch", fix = { "front_punching" }, target = by_choice { "aftertouch_from",
    escape = range(0.4, 1.3, 1),        -- .050 in passes
    contact = range(2.4, 3.3, 3),       -- the same keys, counted from let_off_travel sooner
  }, source = "list-1998-upright; forum-french-upright; common-practice: lower limit, aim",
    why = "smaller than a grand's, and never by the capstan: it takes up lost motion, and no more" },
  use "common/implied_travel_ratio",
  use "upright/jack_stop",
  use "upright/jack_clearance",
  use "common/sharp_residue",
  use "upright/jack_return",
  use "common/checking",
  change { "checking", target = range(14, 17, 15.5), fix = { "backcheck_wire" },  -- 5/8 in on verticals
    source = "digest-2010-upright; page-2011-upright: 5/8 in; common-practice: the band, evenness",
    why = "caught a little further off than on a grand; the check is squared before it is bent" },

  -- Dampers by wire, then by spoon; the rest of the pedals; straps where the soft pedal leaves them.
  use "upright/damper_seating",
  use "upright/damper_lift_together",
  use "upright/damper_key_timing",
  use "common/damper_start",
  change { "damper_start", fix = { "spoon" }, target = by_choice { "damper_start_at",
    half = range(19, 27, 23),           -- half of the blow, give or take
    two_thirds = range(26.5, 34.5, 30.5),
  }, why = "a spoon sets it, and schools differ where" },
  use "common/damper_fraction",
  change { "damper_fraction", fix = { "spoon" }, target = by_choice { "damper_start_at",
    half = range(0.4, 0.6, 0.5),
    two_thirds = range(0.57, 0.77, 0.67),
  }, source = "digest-2000-dampers; list-2001-spoons; forum-vertical-dampers: two thirds; common-practice: the band",
    why = "a spoon sets it, and schools differ where" },
  use "upright/stop_rail",
  use "upright/soft_pedal",
  use "upright/compensator",
  use "upright/bridle_straps",
  use "upright/muffler_rail",

  -- Weigh
  use "common/downweight",
  change { "downweight", target = at_most(60, 52),
    high_todo = "Cure friction and weigh again, then look at the butt spring.",
    source = "common-practice", unsourced = true, why = "springs work in it, so lead is seldom the answer" },
  use "common/upweight",
  change { "upweight", target = at_least(20, 22),
    low_todo = "Cure friction and weigh again, then see that the butt spring is not weak.",
    source = "common-practice", unsourced = true, why = "no figure for uprights was found" },
  use "upright/friction",
  use "upright/mean_weight",

  -- Finish
  use "common/play_soft",
  use "common/play_hard",
  use "common/played_in",
  use "common/settled_level",
  use "common/tone",

  use "common/misreadings",
  use "upright/diagnosis",

  -- The school: aftertouch and blow are held, dip gives way, up to .010 in. One line in a shop book changes it.
  float { "key_dip", within = "0.25 mm" },

  acknowledge { "front_punching", "key_dip",
    why = "Dip floats in this school: aftertouch is made even by front papers, last, inside the float's limit." },
  acknowledge { "balance_punching", "key_level",
    why = "A sharp has a punching of its own; the naturals keep their level." },
  acknowledge { "action_height", "action_bolts", why = "The same supports. Try that the action stands firm again." },
  acknowledge { "rest_rail", "soft_pedal_play", why = "The rod meets the rail. Read its play again." },
  acknowledge { "rest_rail", "hammers_on_rail", why = "The hammers go with their rail. Look once more." },
  acknowledge { "capstan", "hammers_on_rail",
    why = "Lost motion and the hammer's place on the rail are the two sides of one screw. Read both again." },
  acknowledge { "soft_pedal_rod", "soft_pedal_play", why = "One rod, two readings: play first, then half blow." },
  acknowledge { "damper_wire", "damper_seating", why = "A wire that was bent is seated again." },
}
