import { CALL_DEFAULTS, type CallAnswers } from './call.ts'

/** One question of the call, in the order it is asked. */
export interface CallQuestion {
  /** Name of its answer, and of its option in a terminal. */
  readonly id: keyof CallAnswers
  readonly asks: string
  readonly value: string
  /** What is taken when nobody says; null: it has none and must be told. */
  readonly default: string | null
  /** How the default is said. */
  readonly example: string
}

/** The eleven questions of a call, each with its default. */
export const CALL: readonly CallQuestion[] = [
  { id: 'where', asks: 'Where is it: town, region, country?', value: 'TOWN', default: null, example: 'Northgate, AK, US' },
  {
    id: 'machines',
    asks: 'What do you plug in, and how many of each? (plate: watts, volts)',
    value: 'LIST',
    default: null,
    example: '6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V',
  },
  {
    id: 'when',
    asks: 'When must they be ready, and on which days?',
    value: 'TIMES',
    default: CALL_DEFAULTS.when,
    example: '06:00, every day, winter',
  },
  {
    id: 'far',
    asks: 'How far is the farthest machine from where the box can stand?',
    value: 'LENGTH',
    default: CALL_DEFAULTS.far,
    example: '100 ft',
  },
  {
    id: 'power',
    asks: 'Is there power near: pole, transformer, neighbour, generator? How far, what voltage?',
    value: 'TEXT',
    default: CALL_DEFAULTS.power,
    example: 'pole 40 m, 120/240 V',
  },
  {
    id: 'stay',
    asks: 'How long do you need it; will it move; will it grow?',
    value: 'TEXT',
    default: CALL_DEFAULTS.stay,
    example: '18 months, no move, +50 %',
  },
  {
    id: 'ground',
    asks: 'What ground and what access?',
    value: 'TEXT',
    default: CALL_DEFAULTS.ground,
    example: 'frozen silt, crane, lines over the gate',
  },
  {
    id: 'forbidden',
    asks: 'Anything forbidden: noise, colour, night work, fuel, hot work, digging?',
    value: 'TEXT',
    default: CALL_DEFAULTS.forbidden,
    example: 'noise from 22:00 to 07:00',
  },
  {
    id: 'by',
    asks: 'By what date must it be live, and what is lost each day without?',
    value: 'DATE',
    default: 'four weeks before the first cold',
    example: '2026-10-15',
  },
  {
    id: 'buy',
    asks: 'Buy or rent, and what money is there?',
    value: 'TEXT',
    default: CALL_DEFAULTS.buy,
    example: 'rent, 4000 a month',
  },
  {
    id: 'stands',
    asks: 'What stands there now, working, damaged or dead, and who made it dead?',
    value: 'TEXT',
    default: CALL_DEFAULTS.stands,
    example: 'a dead 100 A service, locked off by the utility',
  },
]
