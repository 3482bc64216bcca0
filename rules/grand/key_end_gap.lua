-- The gap from key-end felt to underlever, key at rest: what sets when the key lifts its damper.
return step {
  id = "key_end_gap", title = "Key end below its underlever", stage = "dampers", unit = "mm", scope = "damped",
  need = "optional",
  plain = "Dampers, which end a note",
  ask = "Key at rest, damper down. Read the gap from the key-end felt to the underlever, on samples.",
  why = "The key's end has risen by this gap when the damper starts; felts of one height make an even start.",
  target = range(2.5, 5, 3.7),          -- what the key's end rises in half the hammer's stroke
  resolution = 0.2, gauge = 0.3, even = 0.5,
  fix = { "key_end_felt", "damper_wire" },
  source = "geometry: what the key end rises in half the stroke",
}
