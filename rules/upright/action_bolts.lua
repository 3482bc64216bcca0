-- Action bolts: the whole action stands on them.
return step {
  id = "action_bolts", title = "Action bolts", stage = "prepare", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Brackets stand on their balls or bolts and are held at the top. Push the action: it does not move.",
  why = "An action that rocks changes blow and strike point as you work.",
  caution = "Support the action before you free it. A tilted upright falls backwards.",
  faults = {
    { "loose", means = "the action moves", fix = { { "action_nuts", "tighten" } },
      todo = "Look at the lower supports too." },
    { "crooked", means = "one end stands forward or high", fix = { { "action_square", "square" } },
      todo = "Set the support at that end, then hold the action with its nut." },
  },
  unsourced = true,
}
