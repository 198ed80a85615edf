"""Expands testdata/theory/degrees.tsv to all thirty keys: testdata/theory/names-in-keys.tsv.

Run from the top folder: python3 testdata/gen/names_in_keys.py
It shares no code and no table with the program: notes are counted here along the line of fifths.
"""

LINE = "FCGDAEB"  # F is 0 on the line of fifths, B 6; each seven further is a sharp
# Places on the line of fifths above the root.
INTERVALS = {"P1": 0, "A1": 7, "m2": -5, "M2": 2, "A2": 9, "m3": -3, "M3": 4, "P4": -1, "A4": 6, "P5": 1, "A5": 8, "m6": -4,
             "M6": 3, "A6": 10, "m7": -2, "M7": 5, "d5": -6, "d8": -7}
KINDS = {"maj": (0, 4, 1), "m": (0, -3, 1), "dim": (0, -3, -6), "aug": (0, 4, 8), "7": (0, 4, 1, -2), "maj7": (0, 4, 1, 5),
         "m7": (0, -3, 1, -2), "m7b5": (0, -3, -6, -2), "dim7": (0, -3, -6, -9)}
COMMON = ("C Db D Eb E F F# G Ab A Bb B").split()


def write(place):
    sharps, letter = divmod(place, 7)
    return LINE[letter] + ("#" * sharps if sharps > 0 else "b" * -sharps)


def read(note):
    return LINE.index(note[0]) + 7 * (note.count("#") - note[1:].count("b"))


def sound(place):
    return (place - 1) * 7 % 12  # C is 0


def worse(root, kind):
    """The measure of degrees.tsv: smaller is the plainer spelling."""
    tones = [root + t for t in KINDS[kind]]
    signs = [abs(t // 7) for t in tones]
    return (sum(s > 1 for s in signs), sum(write(t) in ("E#", "B#", "Fb", "Cb") for t in tones), sum(signs))


def plain(pitch, kind, signature):
    spellings = [p for p in range(-7, 14) if sound(p) == pitch and abs(p // 7) <= 1 and write(p) not in ("E#", "B#", "Fb", "Cb")]
    return min(spellings, key=lambda p: (worse(p, kind), -p * signature, write(p) not in COMMON))


def root_of(tonic, signature, above, kind, cell):
    straight = plain((sound(tonic) + above) % 12, kind, signature)
    if cell == "~":
        return straight
    root = tonic + INTERVALS[cell.rstrip("!?")]
    assert sound(root) == (sound(tonic) + above) % 12, (cell, above)
    if cell.endswith("!"):
        return root
    odd = write(root) in ("E#", "B#", "Fb", "Cb")
    office = not cell.endswith("?")
    if abs(root // 7) > 1 or odd and not office or (odd or not office) and worse(straight, kind) < worse(root, kind):
        return straight
    return root


def main():
    rows = [line.rstrip("\n").split("\t") for line in open("testdata/theory/degrees.tsv", encoding="utf-8") if line[0] != "#"]
    kinds = rows[0][2:]
    with open("testdata/theory/names-in-keys.tsv", "w", encoding="utf-8") as out:
        out.write("# degrees.tsv for each of the thirty keys, by testdata/gen/names_in_keys.py. Ours.\n")
        out.write("# key\troot's semitones above the tonic\tits chords\n")
        for mode, first in (("major", read("Cb")), ("minor", read("Ab"))):
            for signature in range(-7, 8):
                tonic = first + 7 + signature
                for row in rows[1:]:
                    if row[0] == mode:
                        above = int(row[1])
                        names = [write(root_of(tonic, signature, above, k, cell)) + ("" if k == "maj" else k) for k, cell in zip(kinds, row[2:])]
                        out.write("\t".join([write(tonic) + ("m" if mode == "minor" else ""), str(above), *names]) + "\n")


main()
