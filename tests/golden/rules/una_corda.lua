return step {
  id = "una_corda", title = "Una corda", kind = "judged", stage = "set", scope = "once",
  ask = "Press the left pedal.", why = "It must clear one string.", unsourced = true,
  faults = { { "short", means = "it still strikes three strings", todo = "set the stop screw back" } },
}
