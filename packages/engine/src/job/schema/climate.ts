import { z } from 'zod'
import { choice, group, months, quantity, range, readBy } from '../fields.ts'

const air = range(-70, 60, '-70 to 60 C')
const share = range(0, 1, '0 to 100 %')

export const climate = z
  .strictObject({
    'design-min': quantity('temperature', air, {
      said: 'Lowest design temperature of the air.',
      need: 'must',
      absent: 'air takes it from the coldest month and says so; cords are not judged against cold',
    }).optional(),
    'extreme-min': quantity('temperature', air, {
      said: 'Lowest temperature on record, or expected once in the stay.',
      need: 'must',
      absent: 'the design minimum',
    }).optional(),
    'design-max': quantity('temperature', air, {
      said: 'Highest design temperature of the air.',
      need: 'must',
      absent: 'the air inside the box is bounded from 30 to 60 C',
    }).optional(),
    'extreme-max': quantity('temperature', air, {
      said: 'Highest temperature on record.',
      need: 'assumed',
      absent: 'the design maximum',
      ...readBy('air'),
    }).optional(),
    'mean-by-month': months('temperature', air, {
      said: 'Mean temperature by month, January to December in both hemispheres.',
      need: 'must',
      absent:
        'those of the nearest place known within 500 km, shifted for the height; where that is far away air shows the year and answers unknown',
    }).optional(),
    'range-by-month': months('difference', range(0, 40, '0 to 40 K'), {
      said: 'Mean daily range by month.',
      need: 'assumed',
      absent: 'that of the nearest place known within 500 km, or by a rule; air says which',
      ...readBy('air'),
    }).optional(),
    'humidity-by-month': months('share', share, {
      said: 'Mean relative humidity by month.',
      need: 'assumed',
      absent: 'that of the nearest place known within 500 km, or by a rule; air says which',
      ...readBy('air'),
    }).optional(),
    'humidity-over': choice(['water', 'ice'], {
      said: 'Whether relative humidity below 0 C is over water or over ice.',
      need: 'assumed',
      absent: 'water, as weather services report it',
      ...readBy('air'),
    }).optional(),
    'wind-by-month': months('speed', range(0, 60, '0 to 60 m/s'), {
      said: 'Mean wind speed by month, 10 m above ground.',
      need: 'assumed',
      absent: 'that of the nearest place known within 500 km, or by a rule; air says which',
      ...readBy('air'),
    }).optional(),
    'sun-by-month': months('irradiation', range(0, 12, '0 to 12 kWh/m2 a day'), {
      said: 'Mean daily global irradiation on the flat, by month.',
      need: 'assumed',
      absent: 'that of the nearest place known within 500 km, or by a rule; air says which',
      ...readBy('air'),
    }).optional(),
  })
  .meta(group('The climate.', 'must', 'air answers unknown'))
