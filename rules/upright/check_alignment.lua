-- Check alignment: the backcheck meets its catcher squarely.
return step {
  id = "check_alignment", title = "Checks to catchers", stage = "bench", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Hold the hammer in check. The felt meets the catcher's leather square and in the middle.",
  why = "A crooked check lets go on firm blows.",
  faults = {
    { "off_side", means = "meets it to one side", fix = { { "check_head", "square" } },
      todo = "Bend the wire sideways until they meet in the middle." },
    { "crooked", means = "faces are not parallel", fix = { { "check_head", "square" } },
      todo = "Turn the check on its wire; bend the wire to suit." },
  },
  masks = { "checking" },               -- squared first: a crooked check catches anywhere
  unsourced = true,
}
