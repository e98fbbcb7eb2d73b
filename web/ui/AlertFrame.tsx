import { alertFrameMarkup, type DrawnResponse } from './alert-mark.ts'
import type { Palette } from './palettes.ts'
import { symbolBox } from './symbol-markup.ts'

/** The frame of an open alert, as the plan draws it. Its meaning stands beside it in words. */
export function AlertFrame(props: { response: DrawnResponse; palette: Palette; size: number }) {
  // Our own markup of numbers and palette colours; no text from outside reaches it.
  return (
    <svg
      class="alert-frame"
      width={props.size}
      height={props.size}
      viewBox={`0 0 ${symbolBox} ${symbolBox}`}
      aria-hidden="true"
      innerHTML={alertFrameMarkup(props.response, props.palette)}
    />
  )
}
