import { MARK_PATHS } from '@plugstead/drawings/marks'

/** One of the five silhouettes, or the punch. Never without its word: that stands beside it, or in the name of what it marks. */
export function Mark({ of, className = '' }: { readonly of: keyof typeof MARK_PATHS; readonly className?: string }) {
  return (
    <svg className={`mark ${className}`} viewBox="0 0 16 16" aria-hidden="true">
      {MARK_PATHS[of].map(({ d, filled, strokeWidth }) =>
        filled ? (
          <path key={d} d={d} fill="currentColor" />
        ) : (
          <path key={d} d={d} fill="none" stroke="currentColor" strokeWidth={strokeWidth} />
        ),
      )}
    </svg>
  )
}
