//! Where each figure of the table of systems comes from and how far it was confirmed: one
//! line a step. In a table of its own, so that a page that shows no sources loads none.

/// Key of a system, and a line for each of its steps.
pub(super) static SOURCES: &[(&str, &[&str])] = &[
    (
        "methanoic",
        &[
            "CRC/NIST 46; pKa 3.75 confirmed in LibreTexts E1; pKa 3.745 and dH -0.17: NIST 46 at second hand, not confirmed; no dCp known",
        ],
    ),
    (
        "ethanoic",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in LibreTexts E1 and Harris App. G; dH: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "propanoic",
        &["NIST 46; pKa and dH: NIST 46 at second hand, not confirmed; no dCp known"],
    ),
    (
        "butanoic",
        &[
            "NIST 46; pKa and dH: NIST 46 at second hand, not confirmed; CRC value from memory; no dCp known",
        ],
    ),
    (
        "benzoic",
        &[
            "CRC; pKa confirmed in LibreTexts E1; dH: NIST 46 at second hand, not confirmed; no dCp known",
        ],
    ),
    (
        "lactic",
        &["CRC; pKa confirmed (3.857 at 22.5 C, Martin & Tartar); dH from memory; no dCp known"],
    ),
    (
        "chloroethanoic",
        &[
            "CRC/NIST 46; pKa 2.865 confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes), 2.87 in LibreTexts E1; dH from memory; no dCp known",
        ],
    ),
    (
        "carbonic",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in CRC 86th ed. 8-40 inorganic acids; pKa 6.352 and dH 9.16: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in CRC 86th ed. 8-40 inorganic acids; dH 14.6: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "phosphoric",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH -7.9: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH and dCp: Goldberg at second hand, not confirmed",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa 12.375 confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH 15: NIST 46 at second hand, not confirmed; 12.35 and 16.0: Goldberg at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "citric",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in LibreTexts E1; dH 4.06: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in LibreTexts E1; dH 2.05: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in LibreTexts E1; dH -3.35: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "boric",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa 9.236 and dH 13: NIST 46 at second hand, not confirmed; CRC 9.27 at 20 C confirmed in CRC 86th ed. 8-40 inorganic acids; dH, dCp from memory",
        ],
    ),
    (
        "ammonium",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Harris App. G and CRC 86th ed. 8-40 inorganic acids; dH 52: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "methylammonium",
        &[
            "NIST 46; pKa and dH: NIST 46 at second hand, not confirmed; pKa 10.657 rated Reliable in the IUPAC Digitized pKa Dataset v2.4 (Perrin); no dCp known",
        ],
    ),
    ("ethylammonium", &["CRC; from memory; no dCp known"]),
    (
        "tris",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa (8.156 at 22 C) and dH 47.53: at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "hydrofluoric",
        &[
            "NIST 46; pKa and dH: NIST 46 at second hand, not confirmed; pKa 3.20 confirmed in CRC 86th ed. 8-40 inorganic acids; no dCp known",
        ],
    ),
    (
        "hypochlorous",
        &[
            "CRC; pKa confirmed in CRC 86th ed. 8-40 inorganic acids and LibreTexts E1; OpenStax uses Ka 2.9e-8 (7.54); dH from memory; no dCp known",
        ],
    ),
    (
        "nitrous",
        &[
            "CRC; pKa confirmed in CRC 86th ed. 8-40 inorganic acids; OpenStax uses Ka 4.6e-4 (3.34); dH from memory, uncertain by several kJ/mol; no dCp known",
        ],
    ),
    (
        "hydrogen_sulfide",
        &[
            "NIST 46; pKa and dH: NIST 46 at second hand, not confirmed; pKa 7.05 confirmed in CRC 86th ed. 8-40 inorganic acids; no dCp known",
        ],
    ),
    (
        "phthalic",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH -2.68: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH -2.18: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "tartaric",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa and dH 2.93: NIST 46 at second hand, not confirmed; dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa and dH 0.75: NIST 46 at second hand, not confirmed; dCp from memory",
        ],
    ),
    (
        "oxalic",
        &[
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa 1.271 confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH, dCp from memory",
            "Goldberg, Kishore & Lennen 2002 J. Phys. Chem. Ref. Data 31 231; pKa confirmed in Kaye & Laby 3.9.7 (Robinson & Stokes); dH, dCp from memory",
        ],
    ),
];
