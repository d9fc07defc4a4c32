"""Who plays: four invented teams in full. No one here is a real person, school or place."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

OWN = "ridge"
#: Teams with a page, and those that only come by.
NAMES = {
    "ridge": "Kestrel Ridge",
    "harbor": "Gannet Harbor",
    "slatefield": "Slatefield State",
    "saltmarsh": "Saltmarsh Tech",
}
PASSING = ("pinewold", "dunmere", "fallowell", "cottersby")

# number | name | positions | bats | throws | class | role | from | until
_ROSTERS = {
    "harbor": """
        27|Iker Núñez|P|R|R|Jr|starter
        19|Bexley Tran|P|L|L|So|starter
        44|Solomon Adeyemi-Frost|P DH|L|R|Sr|starter
        33|Wendell Achterberg|P|R|R|Sr|reliever
        21|Mats Lindqvist|P|L|L|Jr|reliever
        31|Dov Arsenault|P|R|R|Fr|reliever||2026-03-10
        31|Kenzo Marchetti|P|R|R|So|reliever|2026-03-11
        52|Paulo Kealohanui|P|R|R|Fr|reliever
        9|Cormac O'Tierney|P|R|R|Sr|closer
        12|Ruben Castellane|C|R|R|Jr
        35|Haru Winterbourne|C|L|R|So
        3|Anders Lindqvist|SS|L|R|Jr
        8|Theo Okonjo|2B|S|R|So
        24|Bram Vandersloot|1B|L|L|Sr
        17|Mateo Quiroga-Lamb|3B|R|R|So
        6|Isaiah Penhallow|2B SS|R|R|Fr
        1|Kofi Brathwaite|CF|L|L|Jr
        15|Jun-ho Paik|LF|R|R|Jr
        22|Dario Fontanel|RF|R|R|Sr
        29|Levi Stroud-Bagley|LF CF|L|R|So
        7|Nikhil Varghese|RF|R|R|Fr
        40|Gus Tarkowski|DH 1B|R|R|Sr
        11|Emeka Duvalier|3B LF|R|R|So
    """,
    "slatefield": """
        18|Abelardo Quint|P|R|R|Sr|starter
        30|Tuck Hallworth|P|R|R|Jr|starter
        14|Nils Abernathy-Roy|P|L|L|So|starter
        27|Casimir Boudreau-Lane|P|L|L|Jr|reliever
        37|Oluwaseun Grady|P|R|R|So|reliever
        46|Petros Malin|P|R|R|Fr|reliever
        25|Zeke Ferrante|P|R|R|Sr|reliever
        16|Ignatius Wole|P|R|R|Jr|closer
        5|Hank Oyelaran|C|R|R|Sr
        28|Sébastien Crane|C|R|R|Fr
        2|Rafa Delacourt|SS|R|R|Jr
        4|Kai Nakasone-Reed|2B|L|R|So
        13|Bohdan Ellery|1B|L|L|Jr
        20|Malik Thorsen|3B|R|R|So
        10|Arlo Benavente|SS 2B|S|R|Fr
        23|Deshawn Whitlaw|CF|R|R|Sr
        34|Pieter Koh|LF|L|R|Jr
        26|Tomasz Arceneau|RF|R|R|Jr
        7|Jory Maddigan|LF CF|L|L|So
        32|Cy Underhay|RF|R|R|Fr
        45|Lorcan Figueroa-Bell|DH|L|R|Sr
        11|Amos Tindale|3B 1B|R|R|So
    """,
    "saltmarsh": """
        22|Hollis Ramaswamy|P|R|R|Jr|starter
        41|Dmitri Calloway-Ito|P|L|L|Sr|starter
        36|Enoch Larrabee|P|R|R|So|starter
        17|Finbar Oduya|P|R|R|Jr|reliever
        29|Jonah Steyn|P|L|L|So|reliever
        38|Cruz Pemberton-Vail|P|R|R|Fr|reliever
        50|Yusuf Harlan|P|R|R|Gr|reliever
        15|Teague Monserrat|P|R|R|Sr|closer
        8|Andre Villalobos-Kerr|C|R|R|Jr
        31|Piers Nakai|C|L|R|So
        1|Zander Ibekwe|SS|R|R|So
        6|Micah Rosenthorn|2B|R|R|Jr
        33|Gideon Palu|1B|L|L|Sr
        21|Ewan Castrejon|3B|R|R|Jr
        3|Sunil Braddock|2B SS|L|R|Fr
        27|Leopold Ganz-Whittier|CF|L|L|Jr
        10|Tariq Somers|LF|R|R|Sr
        24|Duarte Hensleigh|RF|R|R|So
        14|Mikko Abara|LF CF|L|R|Fr
        39|Orrin Delafosse|RF|R|R|So
        48|Bennet Kuznik|DH|R|R|Gr
        9|Rhys Okparaji|3B 2B|S|R|So
    """,
    "ridge": """
        20|Marlow Vansittart|P|R|R|Sr|starter
        42|Eliseo Brandvold|P|L|L|Jr|starter
        34|Quincy Ashgrove|P|R|R|So|starter
        26|Tobias Nwachukwu-Hale|P|R|R|So|reliever
        16|Ren Castellow|P|L|L|Jr|reliever
        41|Percy Lindgate|P|R|R|Fr|reliever
        43|Jomo Arkwright|P|R|R|Sr|reliever
        27|Stellan Rourke-Diaz|P|R|R|So|reliever
        47|Alvin Teixeira-Poole|P|L|L|Fr|reliever
        5|Bastian Keogh|P|R|R|Sr|closer
        13|Xavier Olumide-Grant|C|R|R|Jr
        36|Colm Yeates|C|L|R|Fr
        2|Ozzie Farnsworth-Li|SS|R|R|So
        4|Dante Hirabayashi|2B|L|R|Jr
        25|Grover Mbeki-Stone|1B|L|L|Sr
        9|Silas Toivonen|3B|R|R|Jr
        14|Ellis Quarrie|2B SS|S|R|Fr
        1|Jabari Wrenfield|CF|L|L|Jr
        7|Callum Ostrowe|LF|R|R|So
        21|Nico Baptiste-Shaw|RF|R|R|Sr
        18|Thaddeus Ueda|LF CF|L|R|So
        30|Ira Fennimore|RF|R|R|Fr
        33|Beau Lachance-Obi|DH|L|R|Gr
        17|Kirby Adeleke|3B 1B|R|R|So
    """,
}

#: Batting orders as they are most of the time, with the position in the field.
LINEUPS = {
    "harbor": "kofi-brathwaite:CF theo-okonjo:2B anders-lindqvist:SS bram-vandersloot:1B gus-tarkowski:DH "
    "jun-ho-paik:LF mateo-quiroga-lamb:3B ruben-castellane:C dario-fontanel:RF",
    "slatefield": "deshawn-whitlaw:CF kai-nakasone-reed:2B rafa-delacourt:SS lorcan-figueroa-bell:DH "
    "bohdan-ellery:1B malik-thorsen:3B tomasz-arceneau:RF hank-oyelaran:C pieter-koh:LF",
    "saltmarsh": "leopold-ganz-whittier:CF zander-ibekwe:SS gideon-palu:1B bennet-kuznik:DH tariq-somers:LF "
    "ewan-castrejon:3B duarte-hensleigh:RF micah-rosenthorn:2B andre-villalobos-kerr:C",
    "ridge": "jabari-wrenfield:CF ozzie-farnsworth-li:SS beau-lachance-obi:DH grover-mbeki-stone:1B "
    "nico-baptiste-shaw:RF silas-toivonen:3B callum-ostrowe:LF dante-hirabayashi:2B xavier-olumide-grant:C",
}

FIELD = {"P": 1, "C": 2, "1B": 3, "2B": 4, "3B": 5, "SS": 6, "LF": 7, "CF": 8, "RF": 9}


@dataclass(frozen=True)
class Man:
    """One line of a roster."""

    key: str
    number: str
    name: str
    positions: tuple[str, ...]
    bats: str
    throws: str
    class_year: str
    role: str
    from_date: date | None
    until_date: date | None

    @property
    def pitches(self) -> bool:
        return "P" in self.positions

    def there(self, day: date) -> bool:
        """Whether he is on the roster that day."""
        return (self.from_date is None or self.from_date <= day) and (self.until_date is None or day <= self.until_date)


def key_of(name: str) -> str:
    """The key a staff would write: lower-case ASCII with hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower().replace("'", "")).strip("-")


def _men(text: str) -> Iterator[Man]:
    for line in text.split("\n"):
        if not line.strip():
            continue
        cells = [cell.strip() for cell in line.split("|")] + [""] * 9
        number, name, positions, bats, throws, class_year, role, start, end = cells[:9]
        yield Man(
            key=key_of(name),
            number=number,
            name=name,
            positions=tuple(positions.split()),
            bats=bats,
            throws=throws,
            class_year=class_year,
            role=role,
            from_date=date.fromisoformat(start) if start else None,
            until_date=date.fromisoformat(end) if end else None,
        )


ROSTERS: dict[str, tuple[Man, ...]] = {team: tuple(_men(text)) for team, text in _ROSTERS.items()}
BY_KEY: dict[tuple[str, str], Man] = {(team, man.key): man for team, men in ROSTERS.items() for man in men}
