import { HATCHES } from '@plugstead/drawings/hatches'

/** Patterns of a drawing's hatches, in millimetres of lettering. Their ink comes from the theme. */
export function Hatches() {
  return (
    <defs>
      {Object.entries(HATCHES).map(([name, { angleDeg, spacingMm, widthMm, dots }]) => (
        <pattern
          key={name}
          id={`h-${name.replaceAll(' ', '-')}`}
          width={spacingMm}
          height={spacingMm}
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${-angleDeg})`}
        >
          {dots ? (
            <circle cx={spacingMm / 2} cy={spacingMm / 2} r={widthMm / 2} className="hatch-dot" />
          ) : (
            <path d={`M0 ${spacingMm / 2}H${spacingMm}`} className="hatch-line" strokeWidth={widthMm} />
          )}
        </pattern>
      ))}
    </defs>
  )
}
