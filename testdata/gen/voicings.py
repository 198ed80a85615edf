"""Writes testdata/theory/guitar-names.tsv and ukulele-names.tsv: shapes that players and books of harmony name, and how.

Run from the top folder: python3 testdata/gen/voicings.py
Names come from how a voicing is made (close position, one voice dropped an octave, a shell, a barre form moved up) or from
what every chart calls a shape, and never from the program. Each shape's notes are checked against its first name here.
Two names that are equally right, such as C6 and Am7 without a bass, stand both, with | between them.
"""

GUITAR = (40, 45, 50, 55, 59, 64)
UKULELE = (67, 60, 64, 69)
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
FLATS = "C Db D Eb E F F# G Ab A Bb B".split()

FORMULAS = {
    "": "0 4 7", "m": "0 3 7", "dim": "0 3 6", "aug": "0 4 8", "sus2": "0 2 7", "sus4": "0 5 7", "5": "0 7",
    "6": "0 4 7 9", "m6": "0 3 7 9", "7": "0 4 7 10", "maj7": "0 4 7 11", "m7": "0 3 7 10", "m(maj7)": "0 3 7 11",
    "m7b5": "0 3 6 10", "dim7": "0 3 6 9", "7sus4": "0 5 7 10", "7#5": "0 4 8 10", "7b5": "0 4 6 10", "maj7#5": "0 4 8 11",
    "maj7#11": "0 4 7 11 6", "add9": "0 4 7 2", "m(add9)": "0 3 7 2", "add4": "0 4 7 5", "6/9": "0 4 7 9 2", "m6/9": "0 3 7 9 2",
    "9": "0 4 7 10 2", "m9": "0 3 7 10 2", "maj9": "0 4 7 11 2", "7b9": "0 4 7 10 1", "7#9": "0 4 7 10 3", "9sus4": "0 5 7 10 2",
    "11": "0 4 7 10 2 5", "m11": "0 3 7 10 2 5", "13": "0 4 7 10 2 9", "maj13": "0 4 7 11 2 9", "m13": "0 3 7 10 2 9",
    "7#11": "0 4 7 10 6", "9#11": "0 4 7 10 2 6", "13b9": "0 4 7 10 1 9", "7b13": "0 4 7 10 8", "7#5#9": "0 4 8 10 3",
    "7#5b9": "0 4 8 10 1", "9#5": "0 4 8 10 2", "m9b5": "0 3 6 10 2", "13sus4": "0 5 7 10 2 9", "7b9b13": "0 4 7 10 1 8",
    "m7add11": "0 3 7 10 5", "7add13": "0 4 7 10 9", "maj7add13": "0 4 7 11 9", "add#11": "0 4 7 6", "maj9#11": "0 4 7 11 2 6",
    "6/9#11": "0 4 7 9 2 6", "m(maj9)": "0 3 7 11 2", "7sus2": "0 2 7 10", "maj7sus2": "0 2 7 11", "m(add4)": "0 3 7 5",
    "7b9sus4": "0 5 7 10 1", "m(addb6)": "0 3 7 8", "mb6": "0 3 7 8", "m7add13": "0 3 7 10 9", "sus2sus4": "0 2 5 7", "dim(maj7)": "0 3 6 11",
    "m11b5": "0 3 6 10 2 5", "7#9b13": "0 4 7 10 3 8", "13#11": "0 4 7 10 2 6 9",
}


def split(name):
    """The root, the formula and the bass of a name; what (no3) takes away is taken away."""
    symbol, _, bass = name.partition("/") if "6/9" not in name else (name, "", "")
    n = 2 if symbol[1:2] in ("#", "b") else 1
    kind, _, lacks = symbol[n:].partition("(no")
    tones = {int(t) for t in FORMULAS[kind].split()}
    if lacks:
        tones -= {{"3)": 4, "5)": 7}[lacks]}
    return note(symbol[:n]), tones, note(bass) if bass else None


def note(s):
    return (LETTERS[s[0]] + s.count("#") - s[1:].count("b")) % 12


def frets(text):
    return [None if f == "x" else int(f) for f in (text.split() if " " in text else text)]


class Table:
    def __init__(self, tuning):
        self.tuning, self.rows, self.seen = tuning, [], set()

    def add(self, shape, names, source):
        if isinstance(shape, str):
            shape = frets(shape)
        assert len(shape) == len(self.tuning), (shape, names)
        sound = [s + f for s, f in zip(self.tuning, shape) if f is not None]
        root, tones, bass = split(names.split("|")[0])
        allowed = {(root + t) % 12 for t in tones} | ({bass} if bass is not None else set())
        if not {p % 12 for p in sound} <= allowed:
            raise ValueError(f"{shape} sounds {[FLATS[p % 12] for p in sound]}, not {names}")
        if len(self.tuning) > 4:
            for name in names.split("|")[:1]:
                r, _, b = split(name)
                if min(sound) % 12 != (r if b is None else b):
                    raise ValueError(f"{shape} has {FLATS[min(sound) % 12]} lowest, not as {names}")
        key = tuple(shape)
        if key in self.seen:
            return
        self.seen.add(key)
        self.rows.append((" ".join("x" if f is None else str(f) for f in shape), names, source))

    def hand(self, source, text):
        for line in text.strip().splitlines():
            for pair in line.split(";"):
                shape, names = pair.strip().split("=")
                self.add(shape, names, source)

    def moved(self, source, text):
        """Forms with their root and kind, and the frets to which they are moved up."""
        for line in text.strip().splitlines():
            shape, root, kinds, up = line.split("=")
            for n in up.split():
                n = int(n)
                at = [None if f is None else f + n for f in frets(shape)]
                names = []
                for one in kinds.split("|"):
                    own, _, kind = one.partition(":") if ":" in one else (root, "", one)
                    kind, slash, bass = (kind, "", "") if "6/9" in kind else kind.partition("/")
                    name = FLATS[(note(own) + n) % 12] + kind
                    if slash:
                        name += "/" + FLATS[(note(bass) + n) % 12]
                    names.append(name)
                self.add(at, "|".join(names), source)

    def voiced(self, source, strings, tones, root, names):
        """A voicing from the lowest note up, tones in semitones above the root, each on its string, as low as it goes."""
        low = None
        shape = [None] * len(self.tuning)
        for string, tone in zip(strings, tones):
            pitch = self.tuning[string] + (root + tone - self.tuning[string]) % 12
            while low is not None and pitch <= low:
                pitch += 12
            low = pitch
            shape[string] = pitch - self.tuning[string]
        stopped = [f for f in shape if f is not None and f > 0]
        if 0 in shape and max(stopped) > 9:
            shape = [f if f is None or f < 9 else f - 12 for f in shape]
        elif 0 in shape and max(stopped) > 4:
            shape = [12 if f == 0 else f for f in shape]
        stopped = [f for f in shape if f]
        if min(stopped) < 0 or max(stopped) - min(stopped) > 4 or max(stopped) > 14:
            return
        self.add(shape, names, source)

    def write(self, file, title):
        with open(file, "w", encoding="utf-8") as out:
            out.write("# %s Made by testdata/gen/voicings.py, which says how.\n" % title)
            out.write("# frets\tnames\tfrom\n")
            for row in self.rows:
                out.write("\t".join(row) + "\n")
        print(file, len(self.rows))


def inverted(tones, n):
    """Close position with the n-th tone lowest, from the root up in semitones."""
    up = [t + 12 for t in tones]
    return (tones + up)[n:n + len(tones)]


def dropped(close, which):
    """Close position with the voice so many from the top an octave lower."""
    voices = list(close)
    voice = voices.pop(-which)
    return sorted([voice - 12] + voices)


def written(root, kind, low):
    """A chord's name with its lowest tone, in semitones above the root; what is a root position of another says so."""
    name = FLATS[root] + kind
    other = FLATS[(root + low) % 12]
    if low == 0:
        return name
    if kind == "m7" and low == 3:
        return other + "6|" + name + "/" + other
    if kind == "m7b5" and low == 3:
        return other + "m6|" + name + "/" + other
    if kind == "dim7":
        return other + "dim7"
    if kind == "6" and low == 9:
        return other + "m7|" + name + "/" + other
    if kind == "m6" and low == 9:
        return other + "m7b5|" + name + "/" + other
    if kind == "m6":  # its notes are those of a half-diminished chord a minor third below, and both stand turned
        return name + "/" + other + "|" + FLATS[(root + 9) % 12] + "m7b5/" + other
    if kind == "m7b5":
        return name + "/" + other + "|" + FLATS[(root + 3) % 12] + "m6/" + other
    return name + "/" + other


def guitar():
    t = Table(GUITAR)
    t.hand("open chord, common practice", """
022100=E; 022000=Em; 020100=E7; 021100=Emaj7; 022030=Em7; 020000=Em7; 022130=E7; 022200=Esus4; 020200=E7sus4; 022102=Eadd9
022120=E6; 022020=Em6; 020102=E9; 020130=E7
x02220=A; x02210=Am; x02020=A7; x02120=Amaj7; x02010=Am7; x02230=Asus4; x02200=Asus2; x02030=A7sus4; x02222=A6; x02212=Am6
x02110=Am(maj7); x02420=Aadd9; x02410=Am(add9); x02000=Em/A|A7sus2; x02423=A9; x02413=Am9
xx0232=D; xx0231=Dm; xx0212=D7; xx0222=Dmaj7; xx0211=Dm7; xx0233=Dsus4; xx0230=Dsus2; xx0213=D7sus4; xx0202=D6; xx0201=Dm6
xx0221=Dm(maj7); xx0101=Ddim7; xx0111=Dm7b5; xx0332=Daug
x32010=C; x32310=C7; x32000=Cmaj7; x32030=Cadd9; x3201x=C; x33011=Csus4; x30013=Csus2; x32330=C9; x31013=Cm
320003=G; 320001=G7; 320002=Gmaj7; 320000=G6; 320033=G; 330013=Gsus4; 3x0203=Gadd9; 3x0201=G9
x21202=B7; x24432=Bm
xx3211=F; 133211=F; xx3210=Fmaj7; xx3213=Fadd9; xx3011=Fsus2
""")
    t.hand("slash chord of songs, common practice", """
032010=C/E; 332010=C/G; x22010=C/B|Cmaj7/B; 200232=D/F#; x00232=D/A; x20033=G/B; xx0003=G/D
302210=Am7/G|Am/G; 002210=Am/E; x42220=A/C#; xx2225=A/E; 302220=A7/G|A/G; 3x0232=D/G
x00211=Dm7/A; 1x0231=Dm/F; x30232=D7/C|D/C; x30231=Dm7/C|Dm/C; xx4232=D/F#; x32210=Am/C; 3x3211=F/G; x33211=F/C; x03211=F/A
x22100=E/B; xx2100=E; 422100=E/G#; xx3003=G/F|G7/F; 1x0003=G/F|G7/F
x24232=Bm7; 224432=Bm/F#; x2x432=Bm; 0x4442=B/E
4x444x=G#m7; 2x222x=F#m7; x3x010=C
""")
    t.moved("barre form, common practice", """
022100=E==3 8
022000=E=m=2 6
020100=E=7=5 9
021100=E=maj7=1 4
020000=E=m7=3 7
022200=E=sus4=3
020200=E=7sus4=5
x02220=A==1 6
x02210=A=m=3 5
x02020=A=7=2 7
x02120=A=maj7=3 8
x02010=A=m7=4 9
x02230=A=sus4=2
x02200=A=sus2=5
x02030=A=7sus4=3
xx0232=D==5
xx0231=D=m=2
xx0212=D=7=6
xx0222=D=maj7=3
xx0211=D=m7=5
xx0111=D=m7b5=4
x0121x=A=dim=2 5
x32010=C==2
x3231x=C=7=2 4
""")
    t.moved("movable jazz form, common practice", """
x32333=C=9=0 2
x3233x=C=9=5
x3133x=C=m9=0 4
x3243x=C=maj9=0 3
x3223x=C=6/9=0
x32233=C=6/9=4
x32335=C=13=0 2
x3234x=C=7#9=0 4
x3232x=C=7b9=2 5
x3133x=C=m9=7
x3131x=C=m7=2 5
x3243x=C=maj9=6
3x345x=G=13=0 2
3x344x=G=7b13|7#5=0 2
3x333x=G=m7=0 4
3x343x=G=7=0 5
3x443x=G=maj7=0 3
3x445x=G=maj13=1
3x243x=G=6=0 3
3x233x=G=m6=0 2
3x332x=G=m7b5=0 3
3x232x=G=dim7=0 2
3x433x=G=m(maj7)=0 2
3x3433=G=7=1
353433=G=7=4
353453=G=13|7add13=0
3x342x=G=7b5|7#11=0 2
3x442x=G=maj7#11=0 2
3x444x=G=maj7#5=0
x3234x=C=7#9=7
x32344=C=7#5#9=0 3
x32324=C=7#5b9=0
x32323=C=7b9=0
x32343=C=7#9=2
353333=G=m7=2
35343x=G=7=2
""")
    t.moved("movable jazz form, common practice", """
3x3533=G=7sus4=0
3x353x=G=7sus4=2
x35353=C=7=1
x35343=C=m7=2
x35453=C=maj7=1
x35555=C=6=0
x3534x=C=m7=5
x3434x=C=m7b5=0 3
x3424x=C=dim7=0 4
x3424x=C=dim7=6
xx1212=Eb=dim7=1 4
xx2333=E=m7b5=0 3
xx2323=E=dim7=3
x5455x=D=9=0
x5355x=D=m9=2
x5465x=D=maj9=1
x5456x=D=7#9=1
x54557=D=13=0
3x3455=G=13=0 4
3x345x=G=13=5
5x555x=A=m7=2
5x554x=A=m7b5=2
5x455x=A=m6=4
""")
    for kind in ("maj7", "7", "m7", "m7b5", "m6"):
        tones = [int(x) for x in FORMULAS[kind].split()]
        for n in range(4):
            for strings, root, label in (((2, 3, 4, 5), 7 + n, "1 to 4"), ((1, 2, 3, 4), 2 + n, "2 to 5"), ((0, 1, 2, 3), 10 - n, "3 to 6")):
                if kind == "m6" and label == "3 to 6":
                    continue
                root = (root + len(kind)) % 12
                chord = dropped(inverted(tones, n), 2)
                t.voiced("drop 2 on strings %s: close position with the second voice from the top an octave lower" % label,
                         strings, chord, root, written(root, kind, chord[0] % 12))
    for kind in ("maj7", "7", "m7", "m7b5"):
        tones = [int(x) for x in FORMULAS[kind].split()]
        for n in range(4):
            for strings, root, label in (((0, 2, 3, 4), 7 + 2 * n, "6 4 3 2"), ((1, 3, 4, 5), 2 + n, "5 3 2 1")):
                root = (root + len(kind)) % 12
                chord = dropped(inverted(tones, n), 3)
                t.voiced("drop 3 on strings %s: close position with the third voice from the top an octave lower" % label,
                         strings, chord, root, written(root, kind, chord[0] % 12))
    for kind in ("", "m", "dim", "aug"):
        tones = [int(x) for x in FORMULAS[kind].split()]
        for n in range(3):
            for strings, root, label in (((3, 4, 5), 0 + n, "1 to 3"), ((2, 3, 4), 7 + n, "2 to 4"), ((1, 2, 3), 2 + n, "3 to 5")):
                root = (root + len(kind)) % 12
                chord = inverted(tones, n)
                name = FLATS[root] + kind + ("" if n == 0 else "/" + FLATS[(root + chord[0]) % 12])
                if kind == "aug":
                    name = FLATS[(root + chord[0]) % 12] + "aug"
                t.voiced("close triad on strings %s, from its lowest tone up" % label, strings, chord, root, name)
    for kind, tones in (("maj7", (0, 11, 16)), ("7", (0, 10, 16)), ("m7", (0, 10, 15)), ("m(maj7)", (0, 11, 15))):
        for strings, root in (((0, 2, 3), 7), ((0, 2, 3), 10), ((1, 2, 3), 2), ((1, 3, 4), 4)):
            order = tones if strings[1] != 2 or strings[0] != 1 else (0, tones[2] - 12, tones[1])
            t.voiced("shell of root, third and seventh", strings, order, root, FLATS[root] + kind)
    for kind, root in (("", 0), ("m", 5), ("", 8), ("m", 11)):
        low, third = 0, int(FORMULAS[kind].split()[1])
        t.voiced("open triad of root, fifth and tenth", (0, 2, 3) if root > 4 else (1, 2, 4), (0, 7, third + 12), root, FLATS[root] + kind)
    t.hand("chord without its third, common practice", """
355xxx=G5; x355xx=C5; 577xxx=A5; xx023x=D5; 022xxx=E5
x353xx=C7(no3); 353xxx=G7(no3); x354xx=Cmaj7(no3)
""")
    t.hand("suspended and added chords, common practice", """
x3001x=Csus2; 3x0013=Gsus4; x7999x=E; x46654=C#m; x3x033=Csus2
""")
    t.hand("upper structures and ninths over a bass, common practice", """
3x3565=F/G
""")
    t.write("testdata/theory/guitar-names.tsv", "Guitar voicings, E A D G B E, and what they are called; ours, common practice unless a row says more.")


def ukulele():
    t = Table(UKULELE)
    t.hand("first position of charts, common practice", """
0003=C; 1114=Db; 2220=D; 0331=Eb; 4442=E; 2010=F; 3121=F#; 0232=G; 5343=Ab; 2100=A; 3211=Bb; 4322=B
0333=Cm; 1104=C#m; 2210=Dm; 3321=Ebm; 0432=Em; 1013=Fm; 2120=F#m; 0231=Gm; 4342=G#m; 2000=Am; 3111=Bbm; 4222=Bm
0001=C7; 1112=Db7; 2223=D7; 3334=Eb7; 1202=E7; 2313=F7; 3424=F#7; 0212=G7; 1323=Ab7; 0100=A7; 1211=Bb7; 2322=B7
0002=Cmaj7; 1113=Dbmaj7; 2224=Dmaj7; 3335=Ebmaj7; 1302=Emaj7; 2413=Fmaj7; 0222=Gmaj7; 1333=Abmaj7; 1100=Amaj7; 3210=Bbmaj7; 3322=Bmaj7
3333=Cm7|Eb6; 4444=C#m7|E6; 2213=Dm7|F6; 0202=Em7|G6; 1313=Fm7|Ab6; 2424=F#m7|A6; 0211=Gm7|Bb6; 0000=Am7|C6; 1111=Bbm7|Db6; 2222=Bm7|D6
2323=Cdim7|D#dim7|F#dim7|Adim7; 0101=C#dim7|Edim7|Gdim7|A#dim7; 1212=Ddim7|Fdim7|G#dim7|Bdim7
1003=Caug|Eaug|G#aug; 2110=Aaug|C#aug|Faug; 0332=Gaug|Baug|Ebaug; 2114=Dbaug|Faug|Aaug
0013=Csus4|Fsus2; 0233=Gsus4|Csus2; 0230=Dsus4|Gsus2; 2200=Asus4|Dsus2; 4400=Esus4|Asus2; 3011=Fsus4|Bbsus2
0203=Cadd9; 0010=Fadd9; 0252=Gadd9; 0422=Em(add9)
0201=Gm6|Em7b5|C9; 1222=Bm6|G#m7b5|E9; 2212=Dm6|Bm7b5|G9; 0102=Em6|C#m7b5|A9; 1213=Fm6|Dm7b5|Bb9; 2333=Cm6|Am7b5|F9
1000=Am(maj7); 0221=Gm(maj7); 2214=Dm(maj7); 1001=C7#5; 1002=Cmaj7#5; 1223=D7b5|G#7b5
4000=Am(add9); 2002=Am(add9); 2102=Aadd9; 3213=Bbadd9; 3010=Fadd4
4212=Bdim; 5323=Cdim; 7545=Ddim; 0401=Edim; 2020=F#dim
""")
    t.moved("movable form, common practice", """
0003=C==2 4 7
2010=F==2 3 5 8
0232=G==5 7
2100=A==2 4 6 8
2220=D==3 5
0333=C=m=2 4 6
2210=D=m=2 3 5
0432=E=m=4 7
1013=F=m=2 4
2000=A=m=2 3 5 7
0001=C=7=3 5 7
0212=G=7=3 6
0100=A=7=3 5
1202=E=7=3 5 6
0002=C=maj7=5 7
0222=G=maj7=3 5
1100=A=maj7=4 6
1302=E=maj7=2 4
0000=A=m7|C:6=6 8
0202=E=m7|G:6=4 6
2213=D=m7|F:6=3 5
0211=G=m7|Bb:6=3 5
0201=G=m6|E:m7b5|C:9=2 4 5
1222=B=m6|G#:m7b5|E:9=1 3 5
2212=D=m6|B:m7b5|G:9=3
0013=C=sus4|F:sus2=2 5
0233=G=sus4|C:sus2=2 4
0230=D=sus4|G:sus2=3 5
2200=A=sus4|D:sus2=3 6
0203=C=add9=2 4
0010=F=add9=2 5
0252=G=add9=2 3
0422=E=m(add9)=2 4
0213=G=7sus4=2 4 7
2223=D=7=4 6
2224=D=maj7=3 6
0101=E=dim7|G:dim7|A#:dim7|C#:dim7=5 7
1003=C=aug|E:aug|G#:aug=4
0220=D=add4=1 2 5
0230=D=sus4|G:sus2=7
0331=Eb==2 4 6
1000=A=m(maj7)=1 3
0221=G=m(maj7)=2
1001=C=7#5=2 4
4000=A=m(add9)=1
2102=A=add9=1 3
4212=B=dim=1 2
5323=C=dim=2
0102=E=m6|C#:m7b5|A:9=4
2333=C=m6|A:m7b5|F:9=2
3010=F=add4=2
""")
    t.hand("chart, common practice", """
0031=C7(no3); 0032=Cmaj7(no3)
4432=Em
5433=C; 5432=Cmaj7; 3433=C7; 5403=C; 0403=C
2225=D
""")
    t.write("testdata/theory/ukulele-names.tsv", "Ukulele shapes, g C E A, and what they are called; ours, common practice.")


guitar()
ukulele()
