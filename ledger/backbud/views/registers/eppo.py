"""EPPO codes of species, for the register of treatments: only those that a published list shows.

Each was read in a host list of the EPPO Global Database (gd.eppo.int/taxon/CODE/hosts, CODE as
named beside it). What is not here has no code in the register, and the register says so.
"""

from __future__ import annotations

CODES = {
    "Carpinus betulus": "CIPBE",  # XYLBGE
    "Celtis sinensis": "CETSI",  # APRIJA
    "Fagus crenata": "FAUCR",  # APRIJA
    "Fagus sylvatica": "FAUSY",  # XYLBGE
    "Juniperus chinensis": "IUPCH",  # ASCXEP
    "Larix decidua": "LAXDE",  # BURSXY
    "Larix kaempferi": "LAXLE",  # BURSXY
    "Olea europaea": "OLVEU",  # XYLEFA
    "Picea abies": "PIEAB",  # XYLBGE
    "Pinus densiflora": "PIUDE",  # XYLBGE, BURSXY
    "Pinus parviflora": "PIUPF",  # XYLBGE
    "Pinus sylvestris": "PIUSI",  # XYLBGE, BURSXY
    "Punica granatum": "PUNGR",  # DACULA, PSECOB
    "Quercus ilex": "QUEIL",  # PHYTKE
    "Quercus robur": "QUERO",  # PHYTKE
    "Zelkova serrata": "ZELSE",  # APRIJA
}


def eppo_code(botanical: str) -> str:
    """The EPPO code of a species by its botanical name; "" where no list was read that has it."""
    return CODES.get(" ".join(botanical.split()[:2]), "")
