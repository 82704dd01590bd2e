import { climateFrom, designYear, normalNamed, toldOfNormal } from '../packages/engine/src/weather/index.ts'
import type { Bench } from './run.ts'

const normal = normalNamed('727640')
const answer = normal === undefined ? null : climateFrom(toldOfNormal(normal))
if (answer === null || !answer.ok) throw new Error('no climate of place 727640')

export const benches: readonly Bench[] = [
  {
    name: 'a design year of weather from twelve months',
    limitS: 0.06,
    run: () => designYear(answer.climate).columns.airC?.[8759],
  },
]
