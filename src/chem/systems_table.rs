//! The table behind [`super::systems`]: one entry a system.

use super::quantity::Pka;
use super::systems::{AcidSystem, Entry, FormName, Heat, Naming, Step};

/// Every system known here. pKa at 25 °C and zero ionic strength.
pub static TABLE: &[Entry] = &[
    Entry {
        key: "methanoic",
        system: AcidSystem::tabulated(0, [step(3.751, -0.17, 0.0), None, None]),
        forms: &[
            form("HCOOH", "methanoic acid", "formic acid"),
            form("HCOO", "methanoate", "formate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "ethanoic",
        system: AcidSystem::tabulated(0, [step(4.756, -0.41, -142.0), None, None]),
        forms: &[
            form("CH3COOH", "ethanoic acid", "acetic acid"),
            form("CH3COO", "ethanoate", "acetate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "propanoic",
        system: AcidSystem::tabulated(0, [step(4.874, -0.66, 0.0), None, None]),
        forms: &[
            form("CH3CH2COOH", "propanoic acid", "propionic acid"),
            form("CH3CH2COO", "propanoate", "propionate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "butanoic",
        system: AcidSystem::tabulated(0, [step(4.819, -2.8, 0.0), None, None]),
        forms: &[
            form("CH3(CH2)2COOH", "butanoic acid", "butyric acid"),
            form("CH3(CH2)2COO", "butanoate", "butyrate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "benzoic",
        system: AcidSystem::tabulated(0, [step(4.204, 0.46, 0.0), None, None]),
        forms: &[
            form("C6H5COOH", "benzoic acid", "benzoic acid"),
            form("C6H5COO", "benzoate", "benzoate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "lactic",
        system: AcidSystem::tabulated(0, [step(3.86, -0.33, 0.0), None, None]),
        forms: &[
            form("CH3CH(OH)COOH", "2-hydroxypropanoic acid", "lactic acid"),
            form("CH3CH(OH)COO", "2-hydroxypropanoate", "lactate"),
        ],
        note: None,
        classroom: Naming::Common,
    },
    Entry {
        key: "chloroethanoic",
        system: AcidSystem::tabulated(0, [step(2.867, -4.7, 0.0), None, None]),
        forms: &[
            form("CH2ClCOOH", "chloroethanoic acid", "chloroacetic acid"),
            form("CH2ClCOO", "chloroethanoate", "chloroacetate"),
        ],
        note: Some(
            "Chloroethanoic acid is poisonous and burns the skin: this pair is for the page, not for a bench.",
        ),
        classroom: Naming::Systematic,
    },
    Entry {
        key: "carbonic",
        system: AcidSystem::tabulated(
            0,
            [step(6.351, 9.15, -371.0), step(10.329, 14.7, -249.0), None],
        ),
        forms: &[
            form("H2CO3", "carbonic acid", "carbonic acid"),
            form("HCO3", "hydrogencarbonate", "bicarbonate"),
            bottled(form("CO3", "carbonate", "carbonate"), "sodium carbonate"),
        ],
        note: Some(
            "H₂CO₃ stands for all dissolved CO₂, most of which is not hydrated. Here the flask is closed: no CO₂ escapes.",
        ),
        classroom: Naming::Systematic,
    },
    Entry {
        key: "phosphoric",
        system: AcidSystem::tabulated(
            0,
            [
                step(2.148, -8.0, -141.0),
                step(7.198, 3.6, -230.0),
                step(12.35, 16.0, -242.0),
            ],
        ),
        forms: &[
            form("H3PO4", "phosphoric acid", "phosphoric acid"),
            form("H2PO4", "dihydrogenphosphate", "dihydrogenphosphate"),
            form("HPO4", "hydrogenphosphate", "hydrogenphosphate"),
            form("PO4", "phosphate", "phosphate"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "citric",
        system: AcidSystem::tabulated(
            0,
            [
                step(3.128, 4.07, -131.0),
                step(4.761, 2.23, -178.0),
                step(6.396, -3.38, -254.0),
            ],
        ),
        forms: &[
            form(
                "C6H8O7",
                "2-hydroxypropane-1,2,3-tricarboxylic acid",
                "citric acid",
            ),
            form("C6H7O7", "dihydrogencitrate", "dihydrogencitrate"),
            form("C6H6O7", "hydrogencitrate", "hydrogencitrate"),
            form("C6H5O7", "citrate", "citrate"),
        ],
        note: None,
        classroom: Naming::Common,
    },
    Entry {
        key: "boric",
        system: AcidSystem::tabulated(0, [step(9.237, 13.8, -240.0), None, None]),
        forms: &[
            form("H3BO3", "boric acid", "boric acid"),
            form("H2BO3", "dihydrogenborate", "borate"),
        ],
        note: Some(
            "In water the base form is B(OH)₄⁻: H₂BO₃⁻ with one H₂O more, which the bookkeeping leaves out.",
        ),
        classroom: Naming::Common,
    },
    Entry {
        key: "ammonium",
        system: AcidSystem::tabulated(1, [step(9.245, 51.95, 8.0), None, None]),
        forms: &[
            form("NH4", "ammonium", "ammonium"),
            form("NH3", "ammonia", "ammonia"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "methylammonium",
        system: AcidSystem::tabulated(1, [step(10.64, 55.2, 0.0), None, None]),
        forms: &[
            form("CH3NH3", "methylammonium", "methylammonium"),
            form("CH3NH2", "methylamine", "methylamine"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "ethylammonium",
        system: AcidSystem::tabulated(1, [step(10.65, 57.1, 0.0), None, None]),
        forms: &[
            form("C2H5NH3", "ethylammonium", "ethylammonium"),
            form("C2H5NH2", "ethylamine", "ethylamine"),
        ],
        note: None,
        classroom: Naming::Systematic,
    },
    Entry {
        key: "tris",
        system: AcidSystem::tabulated(1, [step(8.072, 47.45, -59.0), None, None]),
        forms: &[
            bottled(
                form("(HOCH2)3CNH3", "protonated tris", "protonated tris"),
                "tris hydrochloride",
            ),
            form(
                "(HOCH2)3CNH2",
                "2-amino-2-(hydroxymethyl)propane-1,3-diol",
                "tris",
            ),
        ],
        note: None,
        classroom: Naming::Common,
    },
    Entry {
        key: "hydrofluoric",
        system: AcidSystem::tabulated(0, [step(3.17, -13.3, 0.0), None, None]),
        forms: &[
            form("HF", "hydrofluoric acid", "hydrofluoric acid"),
            form("F", "fluoride", "fluoride"),
        ],
        note: Some(
            "Hydrofluoric acid is very poisonous, even dilute and through the skin: this pair is for the page, not for a bench. The model leaves out HF₂⁻.",
        ),
        classroom: Naming::Systematic,
    },
    Entry {
        key: "hypochlorous",
        system: AcidSystem::tabulated(0, [step(7.4, 13.9, 0.0), None, None]),
        forms: &[
            form("HOCl", "chloric(I) acid", "hypochlorous acid"),
            form("OCl", "chlorate(I)", "hypochlorite"),
        ],
        note: Some(
            "Acid on a hypochlorite gives off chlorine, a poisonous gas, which the model leaves out: this pair is for the page, not for a bench.",
        ),
        classroom: Naming::Common,
    },
    Entry {
        key: "nitrous",
        system: AcidSystem::tabulated(0, [step(3.25, 11.0, 0.0), None, None]),
        forms: &[
            form("HNO2", "nitrous acid", "nitrous acid"),
            form("NO2", "nitrite", "nitrite"),
        ],
        note: Some(
            "Nitrous acid is poisonous and breaks down, giving off nitrogen oxides, which the model leaves out: this pair is for the page, not for a bench.",
        ),
        classroom: Naming::Systematic,
    },
    Entry {
        key: "hydrogen_sulfide",
        system: AcidSystem::tabulated(0, [step(7.02, 22.0, 0.0), None, None]),
        forms: &[
            form("H2S", "hydrogen sulfide", "hydrogen sulfide"),
            form("HS", "hydrogensulfide", "hydrosulfide"),
        ],
        note: Some(
            "Acid on a sulfide gives off hydrogen sulfide, a very poisonous gas, which the model leaves out: this pair is for the page, not for a bench.",
        ),
        classroom: Naming::Systematic,
    },
    Entry {
        key: "phthalic",
        system: AcidSystem::tabulated(
            0,
            [step(2.95, -2.7, -91.0), step(5.408, -2.17, -295.0), None],
        ),
        forms: &[
            form(
                "C6H4(COOH)2",
                "benzene-1,2-dicarboxylic acid",
                "phthalic acid",
            ),
            form("HC8H4O4", "hydrogenphthalate", "hydrogenphthalate"),
            form("C8H4O4", "phthalate", "phthalate"),
        ],
        note: None,
        classroom: Naming::Common,
    },
    Entry {
        key: "tartaric",
        system: AcidSystem::tabulated(
            0,
            [step(3.036, 3.19, -147.0), step(4.366, 0.93, -218.0), None],
        ),
        forms: &[
            form("C4H6O6", "2,3-dihydroxybutanedioic acid", "tartaric acid"),
            form("C4H5O6", "hydrogentartrate", "hydrogentartrate"),
            bottled(form("C4H4O6", "tartrate", "tartrate"), "sodium tartrate"),
        ],
        note: None,
        classroom: Naming::Common,
    },
    Entry {
        key: "oxalic",
        system: AcidSystem::tabulated(
            0,
            [step(1.27, -3.9, -231.0), step(4.266, -7.0, -231.0), None],
        ),
        forms: &[
            form("H2C2O4", "ethanedioic acid", "oxalic acid"),
            form("HC2O4", "hydrogenethanedioate", "hydrogenoxalate"),
            bottled(form("C2O4", "ethanedioate", "oxalate"), "sodium oxalate"),
        ],
        note: Some("Oxalic acid and its salts are poisonous."),
        classroom: Naming::Common,
    },
];

const fn step(pka: f64, enthalpy: f64, capacity: f64) -> Option<Step> {
    match Pka::tabulated(pka) {
        Some(pka) => Some(Step {
            pka,
            heat: Some(Heat { enthalpy, capacity }),
        }),
        None => None,
    }
}

const fn form(formula: &'static str, systematic: &'static str, common: &'static str) -> FormName {
    FormName {
        formula,
        systematic,
        common,
        bottle: None,
    }
}

const fn bottled(form: FormName, bottle: &'static str) -> FormName {
    FormName {
        bottle: Some(bottle),
        ..form
    }
}
