"""The journal: who did what, by person, day and kind of device, of one thing or of the whole garage"""
