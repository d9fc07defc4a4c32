from hashlib import sha256

from scoutgen.site.asset_names import hashed_name


def test_a_name_has_its_content_in_it() -> None:
    assert hashed_name("site.css", b"a{}") == f"site.{sha256(b'a{}').hexdigest()[:8]}.css"
    assert hashed_name("site.css", b"b{}") != hashed_name("site.css", b"a{}")
    assert hashed_name("a.min.js", b"").startswith("a.min.")
