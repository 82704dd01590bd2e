import { Inline } from '../marks/inline.tsx'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import type { Leads, RoomBlock } from '../worker/protocol.ts'
import type { Ways } from './room.tsx'
import { Wide } from './wide.tsx'

type PanelBlock = Extract<RoomBlock, { readonly k: 'panel' }>
type Way = PanelBlock['left'][number]

/** The panel in its own order: odd ways left, even right, the legs as a spine between. */
export function Panel({ block, ways, name }: { readonly block: PanelBlock; readonly ways: Ways; readonly name: string }) {
  const words = useWords()
  const { left, right, spine, leads } = block
  const heads = [words.panel.serves, words.panel.outlet, block.sizeTitle, 'A', words.panel.device, words.panel.way]
  return (
    <Wide name={name}>
      <table className="panel">
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            <th scope="col">{words.panel.leg}</th>
            {heads.toReversed().map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {spine.map(({ legs }, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: ways never change places
            <tr key={i}>
              <Half way={left[i]} leads={leads} ways={ways} />
              <td className={`spine leg-${block.legs.indexOf(legs[0] ?? '')}`}>{legs.join('')}</td>
              <Half way={right[i]} leads={leads} ways={ways} turned />
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}

function Half({
  way,
  leads,
  ways,
  turned = false,
}: {
  readonly way: Way | undefined
  readonly leads: Readonly<Record<string, Leads>>
  readonly ways: Ways
  readonly turned?: boolean
}) {
  const words = useWords()
  if (way === undefined) return <td colSpan={6} />
  const { thing } = leads[way.way] ?? {}
  const on = thing !== undefined && thing.id === ways.chosen
  const serves = <Inline of={way.serves} />
  const cells = [
    <td key="serves" className={on ? 'dyed-cell serves' : 'serves'}>
      {thing === undefined ? (
        serves
      ) : (
        <button type="button" className="names" aria-pressed={on} onClick={() => ways.choose(thing)}>
          {serves}
        </button>
      )}{' '}
      {way.verdict === null || way.verdict === 'holds' ? null : (
        <span className="way-verdict">
          <Mark of={way.verdict} /> {words.verdicts[way.verdict]}
        </span>
      )}
    </td>,
    <td key="outlet">{way.outlet}</td>,
    <td key="size">{way.size}</td>,
    <td key="current" className="right">
      {way.currentA}
    </td>,
    <td key="device" className="right">
      {way.device}
    </td>,
    <td key="way" className="way">
      {way.way}
    </td>,
  ]
  return turned ? cells.toReversed() : cells
}
