return step {
  id = "easing", title = "Key easing", stage = "keys", kind = "judged", scope = "every",
  ask = "Lift the key and let go.",
  why = "A stiff key is slow.",
  faults = {
    { "tight", means = "tight at the balance hole", fix = { { "hole", "ease" } },
      todo = "ease it from side to side only, never front to back" },
    { "slack", means = "rocks on its pin", fix = { { "hole", "plug" } } },
    { "rubs", means = "rubs its neighbour", todo = "Space the keys." },
  },
}
