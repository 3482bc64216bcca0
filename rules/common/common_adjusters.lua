-- Adjusters that grand and upright share: the keys, their pins and papers, centres, shanks, flange screws, strings.
-- Each book lays over these what its own mechanism adds.
local bench, in_piano, stack_off = "bench", "in the piano", "stack off"

return book {
  id = "common_adjusters", api = 1, title = "Adjusters of grand and upright",

  adjuster { "flange_screws", title = "flange screws", more = "tighten", less = "loosen", visit = bench, whole = true,
    moves = { screws = "strong", hammer_travel = "strong", hammer_squaring = "strong", hammer_spacing = "strong",
      blow = "strong" },
    why = "A flange that turned under its screw carries its hammer with it.",
    source = "page-grand-detail: part 1" },

  -- Keys ---------------------------------------------------------------------------------------

  adjuster { "pin_bend", title = "front or balance pin", verb = "bend", more = "to the right", less = "to the left",
    visit = stack_off,
    moves = { key_spacing = "strong", key_easing = "strong", key_level = "slight" },
    why = "With a spacing tool, a little at a time. A front pin that was turned wears its bushing: set it straight.",
    source = "common-practice" },

  adjuster { "key_bushing", title = "front pin bushing", more = "renew", less = "ease", visit = stack_off,
    irreversible = true,
    moves = { key_easing = "strong", downweight = "strong", upweight = "strong" },
    source = "digest-1999-key-holes; page-key-care" },

  adjuster { "balance_bushing", title = "balance pin bushing", more = "renew", less = "ease", visit = stack_off,
    irreversible = true,
    moves = { key_easing = "strong", key_spacing = "slight", downweight = "strong", upweight = "strong" },
    source = "digest-1999-key-holes; page-key-care" },

  adjuster { "balance_hole", title = "balance hole", more = "tighten", less = "ease", visit = stack_off,
    irreversible = true,
    moves = { key_easing = "strong", key_level = "slight", downweight = "strong", upweight = "strong" },
    why = "The key must settle on its paper by its own weight.",
    source = "digest-1999-key-holes; page-key-care" },

  -- The key turns about its back rail contact, so the front rises by more than the paper, and the dip by what the
  -- front pin sees.
  adjuster { "balance_punching", title = "balance punching", more = "add", less = "remove", unit = "mm",
    sizes = { "0.04 mm", ".003 in", ".005 in", ".007 in", ".010 in", ".015 in", ".020 in", ".030 in", ".045 in",
      ".060 in" },
    reach = "3 mm", visit = stack_off,
    moves = {
      key_level = "1 + key_front / key_back",
      settled_level = "1 + key_front / key_back",
      sharp_height = "1 + key_front / key_back",
      key_dip = "key_front / key_back + key_front / key_pin",
    },
    assumed = true, source = "geometry; list-2002-key-papers; page-thin-papers; from-memory: sizes" },

  -- A deeper key carries its check higher, so the hammer is caught nearer to the string: that way is sure. How much
  -- goes by the wedge of tail and check; the key's own fall is the least that it can be.
  adjuster { "front_punching", title = "front punching", more = "add", less = "remove", unit = "mm",
    sizes = { ".003 in", ".005 in", ".007 in", ".010 in", ".015 in", ".020 in", ".030 in", ".045 in", ".060 in" },
    reach = "3 mm", visit = in_piano,
    moves = {
      key_dip = "-(key_front / key_pin)",
      checking = { "key_front / key_pin", assumed = true, again = true },
    },
    assumed = true, source = "handbook-1907; articles-key-dip; geometry; from-memory: sizes" },

  -- Hammers and strings ------------------------------------------------------------------------

  -- Friction is added to the downweight and taken from the upweight. Nobody repins to a gram, so no amount.
  adjuster { "centre_pin", title = "centres", verb = "make", more = "firmer", less = "freer", visit = bench,
    moves = { centres = "strong", downweight = "up", upweight = "down", blow = "strong", hammer_travel = "strong",
      hammer_squaring = "strong", hammer_spacing = "strong" },
    source = "list-2004-weights; list-2003-friction; list-2003-friction-c5; list-1998-friction; " ..
      "college-2004-friction-first; common-practice: limits" },

  adjuster { "shank_twist", title = "shank", verb = "twist", more = "to the right", less = "to the left", visit = bench,
    moves = { hammer_squaring = "strong", hammer_spacing = "slight" },
    source = "page-grand-guide: part III" },

  -- Never by its tuning pin: with a string lifter or hook, at the bridge, agraffe or bar.
  adjuster { "string_level", title = "open string", verb = "bring", more = "toward the hammer",
    less = "away from the hammer", visit = in_piano,
    moves = { string_mating = "strong", damper_seating = "strong", let_off = "slight", blow = "slight" },
    source = "list-string-level; common-practice" },
}
