-- Catcher and butt leather: what the jack slides under and the check catches.
return step {
  id = "leathers", title = "Catcher and butt leather", stage = "bench", kind = "judged", scope = "every",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Look at the leather of catcher and butt, and press the felt under it. Neither is worn through, hard or loose.",
  why = "A worn butt changes let-off and grates. A hard catcher lets go.",
  faults = {
    { "butt_worn", means = "grooved or worn through where the jack slides", fix = { { "butt_leather", "renew" } } },
    { "catcher_worn", means = "the catcher's leather is hard, polished or torn",
      fix = { { "catcher_leather", "brush" }, { "catcher_leather", "renew" } } },
    { "loose", means = "leather or catcher moves on its wood", todo = "Glue it. Read let-off and checking again." },
  },
  unsourced = true,
}
