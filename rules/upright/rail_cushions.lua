-- Cushions of the rest rail: where the shanks lie, and what one short blow in a line often comes from.
return step {
  id = "rail_cushions", title = "Rest rail cushions", stage = "bench", kind = "judged", scope = "once",
  need = "optional",
  plain = "How the hammers travel and meet their strings",
  ask = "Lift the hammers off the rail. Its cushion is whole, soft and even, and glued down along its whole length.",
  why = "A hard or dented cushion knocks, and each dent is a blow of its own.",
  faults = {
    { "dented", means = "grooves under the shanks", fix = { { "rail_cushion", "renew" } } },
    { "hard", means = "shanks knock as they come home", fix = { { "rail_cushion", "renew" } } },
    { "loose", means = "the felt has come off its rail",
      fix = { { "rail_cushion", "glue down" }, { "rail_cushion", "renew" } } },
  },
  masks = { "blow" },
  unsourced = true,
}
