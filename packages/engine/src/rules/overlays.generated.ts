// Written by scripts/tables.ts from the YAML files under overlays/. Change those, then run: npm run tables
import type { Overlay } from './rule-set.ts'

export const overlays: Readonly<Record<string, Overlay>> = {
  "au-nz": {
    "id": "au-nz",
    "title": "Australia and New Zealand, AS/NZS 3000",
    "kind": "country",
    "set": "intl",
    "invented": false,
    "source": "AS/NZS 3000:2018",
    "date": "2018-06-26",
    "provenance": "memory",
    "changes": [
      {
        "table": "intl-systems",
        "row": 0,
        "column": "low",
        "value": -6,
        "source": "AS 60038",
        "provenance": "memory",
        "why": "the band is +10/-6 %"
      },
      {
        "table": "intl-systems",
        "row": 1,
        "column": "low",
        "value": -6,
        "source": "AS 60038",
        "provenance": "memory",
        "why": "the band is +10/-6 %"
      },
      {
        "table": "intl-figures",
        "row": 17,
        "column": "value",
        "value": 5,
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "5 % from the point of supply, whatever the load"
      },
      {
        "table": "intl-figures",
        "row": 18,
        "column": "value",
        "value": 5,
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "5 % from the point of supply, whatever the load"
      },
      {
        "table": "intl-figures",
        "row": 19,
        "column": "value",
        "value": 7,
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "7 % from an own transformer"
      },
      {
        "table": "intl-figures",
        "row": 20,
        "column": "value",
        "value": 7,
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "7 % from an own transformer"
      },
      {
        "table": "intl-figures",
        "row": 24,
        "column": "value",
        "value": "code",
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "the limit is a rule there, not advice"
      },
      {
        "table": "intl-figures",
        "row": 15,
        "column": "value",
        "value": 32,
        "source": "AS/NZS 3000 2.6.3.2",
        "provenance": "memory",
        "why": "residual-current protection of all final circuits"
      },
      {
        "table": "conductor-colours",
        "row": 2,
        "column": "A",
        "value": "red",
        "source": "AS/NZS 3000 3.8.1",
        "provenance": "memory",
        "why": "usual colours of the trade there"
      },
      {
        "table": "conductor-colours",
        "row": 2,
        "column": "B",
        "value": "white",
        "source": "AS/NZS 3000 3.8.1",
        "provenance": "memory",
        "why": "usual colours of the trade there"
      },
      {
        "table": "conductor-colours",
        "row": 2,
        "column": "C",
        "value": "dark blue",
        "source": "AS/NZS 3000 3.8.1",
        "provenance": "memory",
        "why": "usual colours of the trade there"
      },
      {
        "table": "conductor-colours",
        "row": 2,
        "column": "N",
        "value": "black",
        "source": "AS/NZS 3000 3.8.1",
        "provenance": "memory",
        "why": "usual colours of the trade there"
      },
      {
        "table": "intl-figures",
        "row": 21,
        "column": "value",
        "value": 1000000,
        "source": "AS/NZS 3000 3.6.2",
        "provenance": "memory",
        "why": "nothing is added for long runs"
      }
    ],
    "adds": []
  },
  "uk": {
    "id": "uk",
    "title": "United Kingdom, BS 7671",
    "kind": "country",
    "set": "intl",
    "invented": false,
    "source": "BS 7671:2018",
    "date": "2022-03-28",
    "provenance": "memory",
    "changes": [
      {
        "table": "intl-figures",
        "row": 7,
        "column": "value",
        "value": 0.95,
        "source": "BS 7671 411.4.4, Cmin",
        "provenance": "read",
        "why": "Cmin 0.95 in the loop limit"
      },
      {
        "table": "intl-figures",
        "row": 28,
        "column": "value",
        "value": 0.8,
        "source": "BS 7671 Appendix 3, reading taken cold",
        "provenance": "read",
        "why": "0.8 of the limit at a cold reading, together with Cmin 0.95"
      },
      {
        "table": "intl-figures",
        "row": 19,
        "column": "value",
        "value": 6,
        "source": "BS 7671 Appendix 4, Table 4Ab",
        "provenance": "memory",
        "why": "private supply"
      },
      {
        "table": "intl-figures",
        "row": 17,
        "column": "value",
        "value": 3,
        "source": "BS 7671 Appendix 4, Table 4Ab",
        "provenance": "memory",
        "why": "lighting on a public supply"
      },
      {
        "table": "intl-figures",
        "row": 18,
        "column": "value",
        "value": 5,
        "source": "BS 7671 Appendix 4, Table 4Ab",
        "provenance": "memory",
        "why": "other uses on a public supply"
      },
      {
        "table": "intl-figures",
        "row": 41,
        "column": "value",
        "value": "TT",
        "source": "ESQC Regulations 2002, BS 7671 704 and 717",
        "provenance": "memory",
        "why": "no PEN earth on a movable box with a metal skin"
      },
      {
        "table": "intl-systems",
        "row": 0,
        "column": "low",
        "value": -6,
        "source": "BS 7671 Appendix 2, ESQC Regulations 2002",
        "provenance": "memory",
        "why": "the band is +10/-6 %"
      },
      {
        "table": "intl-systems",
        "row": 1,
        "column": "low",
        "value": -6,
        "source": "BS 7671 Appendix 2, ESQC Regulations 2002",
        "provenance": "memory",
        "why": "the band is +10/-6 %"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 2,
        "column": "two_loaded",
        "value": 16,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 2,
        "column": "three_loaded",
        "value": 16,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 3,
        "column": "two_loaded",
        "value": 25,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 3,
        "column": "three_loaded",
        "value": 20,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 4,
        "column": "two_loaded",
        "value": 32,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      },
      {
        "table": "intl-cord-ampacity",
        "row": 4,
        "column": "three_loaded",
        "value": 25,
        "source": "BS 7671 Table 4F3A",
        "provenance": "read",
        "why": "flexible cords carry less there"
      }
    ],
    "adds": [
      {
        "table": "outlets",
        "cells": [
          "16 A 3-pin 110 V",
          "intl",
          16,
          1,
          "LL",
          110,
          null,
          null,
          "memory"
        ],
        "source": "IEC 60309-2, BS 4363",
        "provenance": "memory",
        "why": "reduced low voltage for hand tools on sites"
      }
    ]
  },
}
