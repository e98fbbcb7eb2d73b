import { sameKey } from './same-key.ts'
import { type AtlasPlan, drawAtlas } from './symbol-atlas.ts'

/** Icons drawn side by side in one image, and what they were drawn from. */
export interface IconSheet {
  readonly key: unknown
  readonly plan: Pick<AtlasPlan, 'icons'>
  /** Null: still being drawn. */
  image: ImageBitmap | null
}

/** The sheet known, or another where what it is drawn from changed; `ready` is called when its image has come. */
export function sheetOf(
  ready: () => void,
  known: IconSheet | undefined,
  key: unknown,
  plan: () => AtlasPlan,
  theme?: unknown,
): IconSheet {
  const fullKey = theme === undefined ? key : [key, theme]
  if (known && sameKey(known.key, fullKey)) return known
  const planned = plan()
  const drawn: IconSheet = { key: fullKey, plan: planned, image: null }
  void drawAtlas(planned).then((image) => {
    drawn.image = image
    ready()
  })
  return drawn
}
