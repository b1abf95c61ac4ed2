"""News by mail for whoever asks: evenings that moved, points that wait, parts that came, cars fit or not"""
