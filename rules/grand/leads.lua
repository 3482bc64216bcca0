-- What planning leads must know. The arms are in facts.lua, the weights are steps of the stage Weigh.
-- Weigh your own leads: these sizes and places are a start, and every one is an assumption.
return book {
  id = "leads", api = 1, title = "Leads of a grand",

  -- The pieces in the box. No step is cured by it directly: `key_lead` is the effect, this is the metal.
  adjuster { "lead", title = "lead", more = "put in", less = "take out", unit = "g",
    sizes = { 6, 8, 11, 14 }, irreversible = true, visit = "stack off", assumed = true,
    moves = { downweight = "strong", upweight = "strong", key_front_load = "strong" },
    why = "Round leads of 8 to 13 mm. Weigh a few of yours and lay them over these.",
    source = "common-practice" },

  fact { "lead_wood", title = "share of a lead that the drilled wood takes off", unit = "ratio", value = 0.04,
    assumed = true, why = "wood of 0.45 g/cm3 for lead of 11.3",
    source = "arithmetic: from the densities; common-practice: a few per cent" },
  fact { "lead_nearest", title = "nearest place of a lead to the balance pin", unit = "mm", value = 40,
    assumed = true, source = "common-practice" },
  fact { "lead_farthest", title = "farthest place of a lead from the balance pin", unit = "mm",
    naturals = 210, sharps = 177, assumed = true,
    why = "clear of the front pin's hole", source = "common-practice" },
  fact { "lead_spacing", title = "between the middles of two leads", unit = "mm", value = 18,
    assumed = true, source = "common-practice" },
}
