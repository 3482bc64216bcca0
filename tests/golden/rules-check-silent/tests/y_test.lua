return tests "oru" { { "drop", "A4", reads = 9, want = "pass" } }
