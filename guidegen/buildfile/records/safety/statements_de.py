"""Codes of official hazard and precaution statements → their words in German.

Verordnung (EG) Nr. 1272/2008, Anhänge III und IV, consolidated text of 2025-09-01,
(c) European Union, CC BY 4.0. Angle and square brackets and dots are the regulation's own: they
stand for what the supplier fills in.

P103 and P280 have the words of Annex IV, Part 1, as Verordnung (EU) 2019/521 amended it; see
statements.py. The act prints P280 without a full stop, which a sentence gets here.
"""

STATEMENTS_DE = {
    "H222": "Extrem entzündbares Aerosol.",
    "H223": "Entzündbares Aerosol.",
    "H225": "Flüssigkeit und Dampf leicht entzündbar.",
    "H226": "Flüssigkeit und Dampf entzündbar.",
    "H228": "Entzündbarer Feststoff.",
    "H229": "Behälter steht unter Druck: Kann bei Erwärmung bersten.",
    "H302": "Gesundheitsschädlich bei Verschlucken.",
    "H304": "Kann bei Verschlucken und Eindringen in die Atemwege tödlich sein.",
    "H312": "Gesundheitsschädlich bei Hautkontakt.",
    "H315": "Verursacht Hautreizungen.",
    "H317": "Kann allergische Hautreaktionen verursachen.",
    "H318": "Verursacht schwere Augenschäden.",
    "H319": "Verursacht schwere Augenreizung.",
    "H332": "Gesundheitsschädlich bei Einatmen.",
    "H335": "Kann die Atemwege reizen.",
    "H336": "Kann Schläfrigkeit und Benommenheit verursachen.",
    "H351": (
        "Kann vermutlich Krebs erzeugen <Expositionsweg angeben, sofern schlüssig belegt "
        "ist, dass diese Gefahr bei keinem anderen Expositionsweg besteht>."
    ),
    "H361d": "Kann vermutlich das Kind im Mutterleib schädigen.",
    "H373": (
        "Kann die Organe schädigen <alle betroffenen Organe nennen, sofern bekannt> bei "
        "längerer oder wiederholter Exposition <Expositionsweg angeben, wenn schlüssig "
        "belegt ist, dass diese Gefahr bei keinem anderen Expositionsweg besteht>."
    ),
    "H411": "Giftig für Wasserorganismen, mit langfristiger Wirkung.",
    "H412": "Schädlich für Wasserorganismen, mit langfristiger Wirkung.",
    "EUH066": "Wiederholter Kontakt kann zu spröder oder rissiger Haut führen.",
    "EUH202": (
        "Cyanacrylat. Gefahr. Klebt innerhalb von Sekunden Haut und Augenlider zusammen. "
        "Darf nicht in die Hände von Kindern gelangen."
    ),
    "EUH208": (
        "Enthält <Name des sensibilisierenden Stoffes>. Kann allergische Reaktionen hervorrufen."
    ),
    "EUH210": "Sicherheitsdatenblatt auf Anfrage erhältlich.",
    "P101": "Ist ärztlicher Rat erforderlich, Verpackung oder Kennzeichnungsetikett bereithalten.",
    "P102": "Darf nicht in die Hände von Kindern gelangen.",
    "P103": "Lesen Sie sämtliche Anweisungen aufmerksam und befolgen Sie diese.",
    "P201": "Vor Gebrauch besondere Anweisungen einholen.",
    "P202": "Vor Gebrauch alle Sicherheitshinweise lesen und verstehen.",
    "P210": (
        "Von Hitze, heißen Oberflächen, Funken, offenen Flammen sowie anderen "
        "Zündquellenarten fernhalten. Nicht rauchen."
    ),
    "P211": "Nicht gegen offene Flamme oder andere Zündquelle sprühen.",
    "P233": "Behälter dicht verschlossen halten.",
    "P235": "Kühl halten.",
    "P240": "Behälter und zu befüllende Anlage erden.",
    "P241": "Explosionsgeschützte [elektrische/Lüftungs-/Beleuchtungs-/…] Geräte verwenden.",
    "P242": "Funkenarmes Werkzeug verwenden.",
    "P243": "Maßnahmen gegen elektrostatische Entladungen treffen.",
    "P251": "Nicht durchstechen oder verbrennen, auch nicht nach Gebrauch.",
    "P260": "Staub/Rauch/Gas/Nebel/Dampf/Aerosol nicht einatmen.",
    "P261": "Einatmen von Staub/Rauch/Gas/Nebel/Dampf/Aerosol vermeiden.",
    "P264": "Nach Gebrauch … gründlich waschen.",
    "P270": "Bei Gebrauch nicht essen, trinken oder rauchen.",
    "P271": "Nur im Freien oder in gut belüfteten Räumen verwenden.",
    "P273": "Freisetzung in die Umwelt vermeiden.",
    "P280": "Schutzhandschuhe/Schutzkleidung/Augenschutz/Gesichtsschutz/Gehörschutz/… tragen.",
    "P284": "[Bei unzureichender Belüftung] Atemschutz tragen.",
    "P301+P310": "BEI VERSCHLUCKEN: Sofort GIFTINFORMATIONSZENTRUM/Arzt/…/anrufen.",
    "P302+P352": "BEI BERÜHRUNG MIT DER HAUT: Mit viel Wasser/…/waschen.",
    "P303+P361+P353": (
        "BEI BERÜHRUNG MIT DER HAUT (oder dem Haar): Alle kontaminierten Kleidungsstücke "
        "sofort ausziehen. Haut mit Wasser abwaschen [oder duschen]."
    ),
    "P304+P340": (
        "BEI EINATMEN: Die Person an die frische Luft bringen und für ungehinderte Atmung sorgen."
    ),
    "P305+P351+P338": (
        "BEI KONTAKT MIT DEN AUGEN: Einige Minuten lang behutsam mit Wasser spülen. "
        "Eventuell vorhandene Kontaktlinsen nach Möglichkeit entfernen. Weiter spülen."
    ),
    "P308+P313": (
        "BEI Exposition oder falls betroffen: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen."
    ),
    "P312": "Bei Unwohlsein GIFTINFORMATIONSZENTRUM/Arzt/… anrufen.",
    "P331": "KEIN Erbrechen herbeiführen.",
    "P332+P313": "Bei Hautreizung: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen.",
    "P337+P313": (
        "Bei anhaltender Augenreizung: Ärztlichen Rat einholen/ärztliche Hilfe hinzuziehen."
    ),
    "P362+P364": "Kontaminierte Kleidung ausziehen und vor erneutem Tragen waschen.",
    "P370+P378": "Bei Brand: … zum Löschen verwenden.",
    "P403": "An einem gut belüfteten Ort aufbewahren.",
    "P403+P233": "An einem gut belüfteten Ort aufbewahren. Behälter dicht verschlossen halten.",
    "P403+P235": "An einem gut belüfteten Ort aufbewahren. Kühl halten.",
    "P405": "Unter Verschluss aufbewahren.",
    "P410+P412": (
        "Vor Sonnenbestrahlung schützen und nicht Temperaturen über 50 °C/122 °F aussetzen."
    ),
    "P501": "Inhalt/Behälter … zuführen.",
}
"""Official words by code."""
