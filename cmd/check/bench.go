package main

func benchSteps() []step { return nil }
