"""Codes of official hazard and precaution statements → their words.

Regulation (EC) No 1272/2008, Annexes III and IV, consolidated text of 2025-09-01,
(c) European Union, CC BY 4.0. Angle and square brackets and dots are the regulation's own: they
stand for what the supplier fills in.

P103 and P280 have the words of Annex IV, Part 1, as Regulation (EU) 2019/521 amended it; that act
left the list of Part 2, which the consolidated text repeats, as it was. The later act counts.
"""

# One departure: the consolidated text of P410+P412 prints "Do no expose".
STATEMENTS = {
    "H222": "Extremely flammable aerosol.",
    "H223": "Flammable aerosol.",
    "H225": "Highly flammable liquid and vapour.",
    "H226": "Flammable liquid and vapour.",
    "H228": "Flammable solid.",
    "H229": "Pressurised container: May burst if heated.",
    "H302": "Harmful if swallowed.",
    "H304": "May be fatal if swallowed and enters airways.",
    "H312": "Harmful in contact with skin.",
    "H315": "Causes skin irritation.",
    "H317": "May cause an allergic skin reaction.",
    "H318": "Causes serious eye damage.",
    "H319": "Causes serious eye irritation.",
    "H332": "Harmful if inhaled.",
    "H335": "May cause respiratory irritation.",
    "H336": "May cause drowsiness or dizziness.",
    "H351": (
        "Suspected of causing cancer <state route of exposure if it is conclusively "
        "proven that no other routes of exposure cause the hazard>."
    ),
    "H361d": "Suspected of damaging the unborn child.",
    "H373": (
        "May cause damage to organs <or state all organs affected, if known> through "
        "prolonged or repeated exposure <state route of exposure if it is conclusively "
        "proven that no other routes of exposure cause the hazard>."
    ),
    "H411": "Toxic to aquatic life with long lasting effects.",
    "H412": "Harmful to aquatic life with long lasting effects.",
    "EUH066": "Repeated exposure may cause skin dryness or cracking.",
    "EUH202": (
        "Cyanoacrylate. Danger. Bonds skin and eyes in seconds. Keep out of the reach of children."
    ),
    "EUH208": "Contains <name of sensitising substance>. May produce an allergic reaction.",
    "EUH210": "Safety data sheet available on request.",
    "P101": "If medical advice is needed, have product container or label at hand.",
    "P102": "Keep out of reach of children.",
    "P103": "Read carefully and follow all instructions.",
    "P201": "Obtain special instructions before use.",
    "P202": "Do not handle until all safety precautions have been read and understood.",
    "P210": (
        "Keep away from heat, hot surfaces, sparks, open flames and other ignition "
        "sources. No smoking."
    ),
    "P211": "Do not spray on an open flame or other ignition source.",
    "P233": "Keep container tightly closed.",
    "P235": "Keep cool.",
    "P240": "Ground and bond container and receiving equipment.",
    "P241": "Use explosion-proof [electrical/ventilating/lighting/…] equipment.",
    "P242": "Use non-sparking tools.",
    "P243": "Take action to prevent static discharges.",
    "P251": "Do not pierce or burn, even after use.",
    "P260": "Do not breathe dust/fume/gas/mist/vapours/spray.",
    "P261": "Avoid breathing dust/fume/gas/mist/vapours/spray.",
    "P264": "Wash … thoroughly after handling.",
    "P270": "Do not eat, drink or smoke when using this product.",
    "P271": "Use only outdoors or in a well-ventilated area.",
    "P273": "Avoid release to the environment.",
    "P280": (
        "Wear protective gloves/protective clothing/eye protection/face protection/"
        "hearing protection/…"
    ),
    "P284": "[In case of inadequate ventilation] wear respiratory protection.",
    "P301+P310": "IF SWALLOWED: Immediately call a POISON CENTER/doctor/…",
    "P302+P352": "IF ON SKIN: Wash with plenty of water/…",
    "P303+P361+P353": (
        "IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin "
        "with water [or shower]."
    ),
    "P304+P340": "IF INHALED: Remove person to fresh air and keep comfortable for breathing.",
    "P305+P351+P338": (
        "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact "
        "lenses, if present and easy to do. Continue rinsing."
    ),
    "P308+P313": "IF exposed or concerned: Get medical advice/attention.",
    "P312": "Call a POISON CENTRE/doctor/… if you feel unwell.",
    "P331": "Do NOT induce vomiting.",
    "P332+P313": "If skin irritation occurs: Get medical advice/attention.",
    "P337+P313": "If eye irritation persists: Get medical advice/attention.",
    "P362+P364": "Take off contaminated clothing and wash it before reuse.",
    "P370+P378": "In case of fire: Use… to extinguish.",
    "P403": "Store in a well-ventilated place.",
    "P403+P233": "Store in a well-ventilated place. Keep container tightly closed.",
    "P403+P235": "Store in a well-ventilated place. Keep cool.",
    "P405": "Store locked up.",
    "P410+P412": "Protect from sunlight. Do not expose to temperatures exceeding 50 °C/122°F.",
    "P501": "Dispose of contents/container to …",
}
"""Official words by code."""
