"""Addresses by a keyed hash, and links that lead to them."""

import json
import re

import pytest

from scoutgen.site.hidden_addresses import hidden, with_hidden_links

KEY = b"k" * 32
FILES = [
    "index.html",
    "404.html",
    "teams/harbor/index.html",
    "teams/harbor/players/núñez/index.html",
    "teams/harbor/players/adeyemi/index.html",
    "facts/harbor/adeyemi.json",
    "img/wide one.png",
    "plan vs harbor.pdf",
    "css/own.css",
    "assets/stylesheets/main.css",
    "search/search_index.json",
]
SHOWN = {address: hidden(KEY, address) for address in FILES}


def test_a_hidden_address_is_as_deep_and_says_nothing() -> None:
    for address, shown in SHOWN.items():
        assert shown.count("/") == address.count("/")
    told = "/".join(shown for address, shown in SHOWN.items() if not address.startswith("assets/"))
    assert not [word for word in ("teams", "harbor", "players", "adeyemi", "facts", "img", "plan") if word in told]
    assert re.fullmatch(r"[0-9a-f]{16}\.pdf", SHOWN["plan vs harbor.pdf"])
    assert len(set(SHOWN.values())) == len(FILES)


def test_what_is_the_same_in_every_site_stays() -> None:
    for address in ("index.html", "404.html", "assets/stylesheets/main.css", "search/search_index.json"):
        assert SHOWN[address] == address


def test_without_the_key_an_address_cannot_be_guessed() -> None:
    assert hidden(KEY, FILES[2]) != hidden(b"l" * 32, FILES[2])
    assert hidden(KEY, FILES[2]) == hidden(KEY, FILES[2])


def folder(address: str) -> str:
    return SHOWN[f"{address}/index.html"].removesuffix("index.html")


@pytest.mark.parametrize(
    ("link", "leads"),
    [
        ("../adeyemi/", f"../{folder('teams/harbor/players/adeyemi').split('/')[3]}/"),
        ("../adeyemi/#clock", f"../{folder('teams/harbor/players/adeyemi').split('/')[3]}/#clock"),
        ("../../", "../../"),
        ("../../../../", "../../../../"),
        ("../../../..", "../../../.."),
        ("../../../../assets/stylesheets/main.css", "../../../../assets/stylesheets/main.css"),
        ("../../../../facts/harbor/adeyemi.json", f"../../../../{SHOWN['facts/harbor/adeyemi.json']}"),
        ("../../../../img/wide%20one.png", f"../../../../{SHOWN['img/wide one.png']}"),
        ("../../../../plan%20vs%20harbor.pdf", f"../../../../{SHOWN['plan vs harbor.pdf']}"),
        ("#clock", "#clock"),
        ("https://example.org/teams/", "https://example.org/teams/"),
        ("data:image/png;base64,AAAA", "data:image/png;base64,AAAA"),
        ("/elsewhere/", "/elsewhere/"),
    ],
)
def test_a_link_of_a_page_leads_to_the_shown_address(link: str, leads: str) -> None:
    page = f'<a class="x" href="{link}">x</a>'.encode()
    made = with_hidden_links("teams/harbor/players/núñez/index.html", page, SHOWN).decode()
    assert made == f'<a class="x" href="{leads}">x</a>'


def test_links_of_the_page_for_unknown_addresses_begin_at_the_root() -> None:
    page = b'<a href="/team/teams/harbor/">x</a><img src="/team/img/wide%20one.png">'
    made = with_hidden_links("404.html", page, SHOWN, "/team/").decode()
    assert made == f'<a href="/team/{folder("teams/harbor")}">x</a><img src="/team/{SHOWN["img/wide one.png"]}">'


def test_style_sheets_and_the_search_index_lead_there_too() -> None:
    sheet = b"a { background: url('../img/wide%20one.png') } b { background: url(#clip) }"
    own = {**SHOWN, "css/own.css": SHOWN["css/own.css"]}
    assert SHOWN["img/wide one.png"] in with_hidden_links("css/own.css", sheet, own).decode()
    assert b"url(#clip)" in with_hidden_links("css/own.css", sheet, own)
    index = json.dumps({"docs": [{"location": "teams/harbor/#x", "title": "t"}, {"location": "", "title": "home"}]})
    made = json.loads(with_hidden_links("search/search_index.json", index.encode(), SHOWN))
    assert [doc["location"] for doc in made["docs"]] == [f"{folder('teams/harbor')}#x", ""]
