import { layoutFor } from '../packages/engine/src/fit/layout/index.ts'
import { asked } from '../packages/engine/test/laid-yard.ts'
import type { Bench } from './run.ts'

const small = asked({ machines: 8, skin: true })
const full = asked({ machines: 40, skin: true, control: 'timers' })
const long = asked({ machines: 40, lengthFt: 53, skin: true, control: 'timers' })
const first = 'layout of a 20 ft box, 8 machines'

/** Of a box of 20 ft, the openings cut: at most 150 ms. */
export const benches: readonly Bench[] = [
  { name: first, run: () => layoutFor(small).search?.money, limitS: 0.15 },
  {
    name: 'layout of a 20 ft box, 40 machines on timers',
    run: () => layoutFor(full).search?.money,
    against: first,
    limitS: 0.15,
  },
  { name: 'layout of a 53 ft box, 40 machines on timers', run: () => layoutFor(long).search?.money, against: first },
]
