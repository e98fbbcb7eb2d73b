import { createSignal, Show } from 'solid-js'

const size = { width: 720, height: 480 }

/** A sketch by finger, pen or mouse; it becomes a picture that goes with the entry. A photo says the same to those who cannot draw. */
export function SketchField(props: { onSketch: (sketch: File) => void }) {
  const [open, setOpen] = createSignal(false)
  const [drawn, setDrawn] = createSignal(false)
  let canvas: HTMLCanvasElement | undefined
  let drawing = false
  const at = (event: PointerEvent): [number, number] => {
    const box = (canvas as HTMLCanvasElement).getBoundingClientRect()
    return [
      ((event.clientX - box.left) * size.width) / box.width,
      ((event.clientY - box.top) * size.height) / box.height,
    ]
  }
  const begin = (event: PointerEvent) => {
    const context = canvas?.getContext('2d')
    if (!context) return
    canvas?.setPointerCapture(event.pointerId)
    drawing = true
    context.lineWidth = 3
    context.lineCap = 'round'
    context.lineJoin = 'round'
    context.strokeStyle = '#1d2730'
    context.beginPath()
    context.moveTo(...at(event))
  }
  const draw = (event: PointerEvent) => {
    const context = canvas?.getContext('2d')
    if (!drawing || !context) return
    context.lineTo(...at(event))
    context.stroke()
    setDrawn(true)
  }
  const clear = () => {
    const context = canvas?.getContext('2d')
    if (!context) return
    context.fillStyle = '#ffffff'
    context.fillRect(0, 0, size.width, size.height)
    setDrawn(false)
  }
  const keep = () =>
    canvas?.toBlob((blob) => {
      if (!blob) return
      props.onSketch(new File([blob], 'sketch.png', { type: 'image/png' }))
      setOpen(false)
      setDrawn(false)
    }, 'image/png')
  return (
    <Show
      when={open()}
      fallback={
        <button type="button" onClick={() => setOpen(true)}>
          Draw a sketch
        </button>
      }
    >
      <div class="field-sketch">
        <canvas
          ref={(made) => {
            canvas = made
            clear()
          }}
          width={size.width}
          height={size.height}
          role="img"
          aria-label="Sheet for a sketch, drawn with finger, pen or mouse"
          onPointerDown={begin}
          onPointerMove={draw}
          onPointerUp={() => {
            drawing = false
          }}
        />
        <button type="button" disabled={!drawn()} onClick={keep}>
          Add the sketch
        </button>
        <button type="button" onClick={clear}>
          Begin anew
        </button>
        <button type="button" onClick={() => setOpen(false)}>
          No sketch
        </button>
      </div>
    </Show>
  )
}
