return tests "our" { { "drop", "A4", reads = 9, want = "pass" } }
