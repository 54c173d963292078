"""Tubes and sets of the invented whole jobs. All values are our own, within what the trade used; tubes pass through usual working points (figures from memory, not from any sheet)."""
import job_parts as jp

REMOTE = jp.tube(2200, (250, 100, -3, 11.8e-3), 19, 0.22, remote=True)
MIXER = jp.tube(2000, (250, 100, -1.5, 11.0e-3), 17, 0.68, remote=True)
SHARP = jp.tube(2500, (250, 100, -3, 3.8e-3), 20, 0.21)
MEDIUM = jp.tube(20, (250, 0, -8, 9e-3))
TWIN = jp.tube(40, (150, 0, -2, 5e-3))
HIGH = jp.tube(95, (250, 0, -2, 0.9e-3))
POWER = jp.tube(180, (250, 250, -12.5, 49.5e-3), 9.5, 0.09, knee=22.0)
SMALL_POWER = jp.tube(160, (250, 250, -7.5, 41e-3), 20.0, 0.12, knee=20.0)
LOW_MIXER = jp.tube(1500, (100, 100, -0.5, 11e-3), 17, 0.70, remote=True)
LOW_REMOTE = jp.tube(1500, (100, 100, -1, 16e-3), 19, 0.22, remote=True)
LOW_HIGH = jp.tube(95, (100, 0, -1, 0.4e-3))
STRING_POWER = jp.tube(110, (170, 170, -10.5, 62e-3), 10.0, 0.09, knee=18.0)
CABLE = {"ohm": 53.5, "velocity": 0.66, "lossOhmPerFt": 0.02}

EIGHT = {
    "id": "eight-tube-230v-q-multiplier",
    "title": "an eight-tube communications set for 230 V 50 Hz, one RF stage, separate oscillator, one IF stage with two double-tuned cans on 465 kHz, BFO, Q multiplier on two feet of cable at the mixer plate",
    "line": {"nominalV": 230, "foundV": 237.4, "primaryOhm": 21.0, "lampW": 100, "lampV": 240, "plateW": 72, "coreW": 8.0, "heaterWindingOhm": 0.075, "heaterAtNominalV": 6.34, "rectifierHeaterW": 3.8, "rectifierDropV": 21.0},
    "tubes": [("V1", "remote-cutoff RF pentode", "RF amplifier", 0.3), ("V2", "pentagrid", "mixer", 0.3), ("V3", "medium-mu triode", "oscillator", 0.3), ("V4", "remote-cutoff RF pentode", "IF amplifier", 0.3),
              ("V5", "double diode high-mu triode", "detector, AVC, first AF amplifier", 0.3), ("V6", "output pentode", "output", 0.45), ("V7", "sharp-cutoff RF pentode", "BFO", 0.3), ("V8", "full-wave rectifier, indirectly heated", "rectifier", None)],
    "stages": {"V1": {"kind": REMOTE, "plateOhm": 4700, "screenOhm": 47e3, "cathodeOhm": 270, "gridOhm": 1e6, "feed": "second"}, "V2": {"kind": MIXER, "plateOhm": 2200, "screenOhm": 22e3, "cathodeOhm": 180, "gridOhm": 1e6, "feed": "second"},
               "V3": {"kind": MEDIUM, "plateOhm": 27e3, "cathodeOhm": 680, "gridOhm": 47e3, "feed": "second"}, "V4": {"kind": REMOTE, "plateOhm": 2200, "screenOhm": 56e3, "cathodeOhm": 330, "gridOhm": 470e3, "feed": "second"},
               "V5": {"kind": HIGH, "plateOhm": 220e3, "cathodeOhm": 2700, "gridOhm": 2.2e6, "feed": "second", "feedOhm": 33e3, "F": 8e-6}, "V6": {"kind": POWER, "plateOhm": 420, "screenOhm": 470, "cathodeOhm": 270, "gridOhm": 470e3, "feed": "first", "screenFeed": "second"},
               "V7": {"kind": SHARP, "plateOhm": 100e3, "screenOhm": 180e3, "cathodeOhm": 1000, "gridOhm": 47e3, "feed": "second"},
               "A1": {"kind": TWIN, "plateOhm": 4700, "cathodeOhm": 1500, "gridOhm": 2.2e6, "feed": "second", "feedOhm": 15e3, "F": 8e-6, "accessory": True}},
    "couplings": [("V5", "V6")], "chartMeter": "1 kohm/V", "meter": "20 kohm/V", "hide": {("V3", "grid")},
    "supply": {"lineHz": 50, "halfV": 255.0, "unequal": 0.0, "halfOhm": 150.0, "addedOhm": 0.0, "perveance": 6.5e-4, "silicon": 0, "c1F": 16e-6, "c1SeriesOhm": 1.0, "c1LeakOhm": 1e9,
               "chokeH": 10.0, "chokeSaturatesA": 0.22, "chokeOhm": 310.0, "c2F": 32e-6, "bleedOhm": 47e3},
    "supplyReal": {"c1F": 15.2e-6, "c2F": 30e-6, "unequal": 0.008, "chokeH": 9.5, "halfOhm": 154.0, "perveance": 6.2e-4},
    "supplyWords": "transformer with centre-tapped high-voltage winding, tube rectifier, first capacitor, choke, second capacitor; output plate from the first, all else from the second",
    "look": "Line cord perished, two-pin plug. Paper capacitors throughout. A box with a Q multiplier hangs on two feet of cable at the mixer plate, its supply on the set's own B+ and heaters. It is unplugged for all that follows until the set itself is right. Slugs of both IF cans have been at.",
    "ohms": [("V6", "cathodeOhm"), ("V6", "gridOhm"), ("V4", "cathodeOhm"), ("V4", "screenOhm"), ("V2", "screenOhm"), ("V1", "cathodeOhm")],
    "supplyOhms": [("primary", 21, 20.6), ("high voltage, each half", 150, 154), ("choke", 310, 306), ("B+ to chassis after a minute", 47000, 44100)],
    "capacitors": [("first filter", 16e-6, 15.2e-6, 1.6, {}), ("second filter", 32e-6, 30e-6, 1.2, {}), ("V5 decoupling", 8e-6, 7.1e-6, 3.0, {}), ("V6 cathode bypass", 25e-6, 29e-6, 1.4, {}), ("coupling V5 to V6", 0.02e-6, 0.024e-6, 8.0, {"leakOhmAtWorkingV": 4.2e6})],
    "dc": [{"id": "F1", "fault": "couplingLeak", "from": "V5", "to": "V6", "leakOhm": 4.2e6, "did": "coupling capacitor V5 to V6 renewed, 0.022 uF film", "mend": {}},
           {"id": "F2", "fault": "feedResistor", "at": "V5", "markedOhm": 33e3, "actualOhm": 112e3, "did": "V5 feed resistor renewed, 33 kohm, reads 33.2 kohm", "mend": {"stages": {"V5": {"supplyOhm": 33.2e3}}}}],
    "if": {"hz": 465000, "cans": [(82, 78, 0.9), (78, 58, 0.85)], "capsPf": [(118, 112), (115, 120)], "tubes": ["V4"], "driveS": 4.2e-4, "rpOhm": 0.8e6, "gridOhm": 1.5e6, "diodeOhm": 200e3, "turnedHz": [2900, -3600, -1500, 3300], "seed": 31, "spanHz": 20e3},
    "trace": {"outputLoadOhm": 5000, "audio": [("V6", 5000), ("V5", 150e3)], "detectorPart": 0.85, "mixer": "V2"},
    "ranges": {"A": (0.55e6, 1.45e6), "B": (1.4e6, 3.7e6), "C": (3.6e6, 9.4e6)}, "gang": (12.5e-12, 385e-12, 1.05, 2.3, 0.5), "dialFault": {"range": "B", "part": "padder", "off": 0.07, "leftOff": -0.002, "did": "padder of range B set down, trimmer touched up"},
    "accessory": {"kind": "Q multiplier", "words": "one triode as cathode follower on a tapped tank, blocking capacitor at the mixer plate", "places": ["A1"], "cable": {**CABLE, "feet": 2.0, "blockF": 1e-9}, "coilH": 120e-6, "coilQ": 115,
                  "decouplingF": 8e-6, "driedTo": (0.18e-6, 320.0), "offCentreHz": 2400, "regenerationPart": 0.82, "dc": [], "hide": {("A1", "grid")},
                  "did": "8 uF decoupling capacitor renewed; tank trimmed to the IF centre; first primary peaked again with the cable on",
                  "faults": [{"id": "Q1", "fault": "accessoryCapacitor", "at": "A1", "markedF": 8e-6, "actualF": 0.18e-6, "seriesOhm": 320}, {"id": "Q2", "fault": "accessoryOffCentre", "at": "A1", "tankOffHz": 2400}]},
    "accessoryW": 3.6, "accessoryHeaterA": 0.3, "watch": ["V6"], "drift": (7.1e6, [(-1300.0, 4.0), (-2900.0, 26.0)]),
    "safety": {"lineV": 236, "cordFound": "two-core, perished", "fuseFound": "none", "fuseLeft": "1 A slow", "bondOhm": 0.06, "did": "three-core cord, fuse, line capacitors of safety class 1 nF",
               "found": {"hot": [(0.01e-6, 160e3)], "neutral": [(0.01e-6, 2.4e6)], "insulationOhm": 0.15e6}, "left": {"hot": [(1.3e-9, 70e6)], "neutral": [(1.2e-9, 70e6)], "insulationOhm": 38e6}},
}

SETS = [EIGHT]
