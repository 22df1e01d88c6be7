"""The Calc add-in without Calc: what cells ask, how it is sent, and what comes back. Standard library only."""
