// Written by scripts/tables.ts from the YAML files under tables/. Change those, then run: npm run tables
import type { ShelfTable } from '../kernel/index.ts'

export const tables = {
  "air-build-figures": {
    id: "air-build-figures", title: "What a box is built with against heat and damp where nobody said",
    units: {},
    columns: ["figure","value","unit","clause","row_provenance"],
    rows: [
      ["vent-size",300,"mm","width and height of a vent of the shop's own","common practice"],
      ["vent-low",450,"mm","middle of a low vent over the floor","common practice"],
      ["vent-below-sheet",250,"mm","middle of a high vent under the upper edge of the wall's sheet","common practice"],
      ["fan-on",30,"C","air inside above which a fan runs on its thermostat","common practice"],
      ["heater-on",5,"C","air inside below which a heater against frost runs on its thermostat","common practice"],
    ],
    source: "house rules of the shop",
    provenance: "common practice",
    address: null,
    notes: ["Each is what is taken where nobody said; a pin under `air.<box>` replaces it."],
  },
} as const satisfies Readonly<Record<string, ShelfTable>>
