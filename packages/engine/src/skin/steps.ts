import type { SkinStep } from './result.ts'
import type { SkinView } from './view.ts'

/** The order of cutting: weld, grind, prime, then foam or line. @source trade practice. Provenance: common practice */
export function stepsOf(view: SkinView): readonly SkinStep[] {
  const { openings, finish } = view.build.skin
  const framed = openings.filter((o) => o.frame !== null).length
  const plated = openings.filter((o) => o.plate !== null).length
  return [
    {
      words:
        'Measure the first rib of each side from its datum and write it on the sheet; move the holes that must sit on a flat.',
      caution: null,
    },
    {
      words: 'Scribe every opening from the datum corner, outside, and check it from inside against the strut.',
      caution: 'Nothing is live in the wall: prove it before the first cut.',
    },
    {
      words: 'Strip coating and floor edge 100 mm around every cut; shield the plywood.',
      caution:
        'Coatings and floor treatment give poisonous fume: ventilate, wear breathing protection, fire watch 60 min after the last heat.',
    },
    ...(framed > 0
      ? [
          {
            words: `Tack ${framed} frame${framed === 1 ? '' : 's'} on the uncut wall, then cut inside them; radius at least 25 mm in every corner.`,
            caution: null,
          },
          { words: 'Weld outside all round, stitch inside, cap the ends of the ribs, slope the sill out.', caution: null },
        ]
      : []),
    { words: 'Drill holes on flats with a hole saw from the flat side; collars welded or riveted and sealed.', caution: null },
    { words: `Grind, then ${finish.primer}.`, caution: null },
    { words: 'Hoods, gaskets, mesh of 6 mm, welded stainless, removable.', caution: null },
    ...(plated > 0
      ? [
          {
            words: 'Bolt the cord plates on their gasket; split glands from below, drip loop outside; plug every spare entry.',
            caution: null,
          },
        ]
      : []),
    {
      words: 'Hose each face 5 min from 3 m; then shut the doors and look for light from inside.',
      caution: 'One person inside, one outside at the door, doors not latched.',
    },
    ...(finish.foam ? [{ words: 'Foam or line after the leak test, never before the primer is dry.', caution: null }] : []),
  ]
}
