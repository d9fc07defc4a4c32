"""Known answers of the ciphers, for both sides: Python's and the browser's."""

# RFC 7914, section 11: PBKDF2 with HMAC-SHA-256; password, salt, rounds, 64 bytes.
PBKDF2 = [
    (
        *("passwd", "salt", 1),
        (
            "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc"
            "49ca9cccf179b645991664b39d77ef317c71b845b1e30bd509112041d3a19783"
        ),
    ),
    (
        *("Password", "NaCl", 80_000),
        (
            "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56"
            "a1d425a1225833549adb841b51c9b3176a272bdebba1d078478f62b397f33c8d"
        ),
    ),
]
# RFC 5869, appendix A, test cases 1 and 3: HKDF with SHA-256; secret, salt, info, output.
HKDF = [
    (
        *("0b" * 22, "000102030405060708090a0b0c", "f0f1f2f3f4f5f6f7f8f9"),
        "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865",
    ),
    (
        *("0b" * 22, "", ""),
        "8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8",
    ),
]
# McGrew and Viega, "The Galois/Counter Mode of Operation (GCM)" (2005), the submission behind NIST SP 800-38D,
# appendix B, test cases 13, 14 and 16: AES-256; key, nonce, associated data, text, cipher, tag.
GCM = [
    ("00" * 32, "00" * 12, "", "", "", "530f8afbc74536b9a963b4f1c4cb738b"),
    (
        *("00" * 32, "00" * 12, "", "00" * 16),
        *("cea7403d4d606b6e074ec5d3baf39d18", "d0d1c8a799996bf0265b98b5d48ab919"),
    ),
    (
        *("feffe9928665731c6d6a8f9467308308" * 2, "cafebabefacedbaddecaf888"),
        "feedfacedeadbeeffeedfacedeadbeefabaddad2",
        (
            "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72"
            "1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39"
        ),
        (
            "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa"
            "8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662"
        ),
        "76fc6ece0f4e1768cddf8853bb2d551b",
    ),
]
