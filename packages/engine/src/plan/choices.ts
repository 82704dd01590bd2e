import type { Design, Pin } from '../job/index.ts'

/** Every choice of a design that a pin can hold, by the path of the pin. Boxes and phases that chose apart give a path more than once. */
export function choicesOf(design: Design): readonly (readonly [path: string, value: Pin['value']])[] {
  return design.boxes.flatMap((box) => [
    ['supply.offer', box.offer] as const,
    ...(box.interim === null ? [] : [['supply.interim', box.interim] as const]),
    ['service.rating', box.serviceA] as const,
    ['staging.control', box.staging.control] as const,
    ['transfer', box.transfer] as const,
    ['panel.ways', box.panel.ways] as const,
    ['panel.interruptingKA', box.panel.interruptingKA] as const,
    ...box.circuits
      .filter((circuit) => circuit.plugs.length > 0)
      .flatMap((circuit) => [
        [`circuits.${circuit.id}.device`, circuit.device.ratingA] as const,
        [`circuits.${circuit.id}.line`, circuit.run.line.size] as const,
        ...circuit.cords.map((cord) => [`cords.${cord.plug}.size`, cord.size] as const),
      ]),
  ])
}
