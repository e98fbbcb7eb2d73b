import decodeQR from 'qr/decode.js'
import { createSignal, onCleanup, Show } from 'solid-js'
import { readLabel } from '../../derived/label-text.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { selectInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { OpenedInstrument } from './OpenedInstrument.tsx'

const lookEveryMs = 200
const longestSidePixels = 1000

/** Opens an instrument by the code on its label: by the camera as one walks up to it, or from a photo. */
export function ScanPage() {
  const [running, setRunning] = createSignal(false)
  const [sentence, setSentence] = createSignal<string | null>(null)
  const [opened, setOpened] = createSignal<string | null>(null)
  let video: HTMLVideoElement | undefined
  let stream: MediaStream | null = null
  let timer: ReturnType<typeof setInterval> | undefined
  const stop = () => {
    clearInterval(timer)
    for (const track of stream?.getTracks() ?? []) track.stop()
    stream = null
    setRunning(false)
  }
  onCleanup(stop)
  const take = (text: string) => {
    const document = siteDocument()
    if (!document) return
    const read = readLabel(text, document)
    if (read.instrument === null) {
      setOpened(null)
      setSentence(read.sentence)
      announce(read.sentence)
      return
    }
    stop()
    setSentence(null)
    setOpened(read.instrument)
    selectInstrument(read.instrument)
  }
  const start = async () => {
    setSentence(null)
    setOpened(null)
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } })
    } catch (cause) {
      setSentence(
        `The camera cannot be used (${sentenceOf(cause)}). Allow it for this page, or take a photo of the label.`,
      )
      return
    }
    setRunning(true)
    if (!video) return stop()
    video.srcObject = stream
    await video.play().catch(() => undefined)
    timer = setInterval(() => {
      const text = video && video.videoWidth > 0 ? codeIn(video, video.videoWidth, video.videoHeight) : null
      if (text !== null) take(text)
    }, lookEveryMs)
  }
  const fromPhoto = async (file: File | undefined) => {
    if (!file) return
    setOpened(null)
    try {
      const picture = await createImageBitmap(file)
      const text = codeIn(picture, picture.width, picture.height)
      if (text === null) setSentence('No code was found in this photo. Go nearer, hold still, and try again.')
      else take(text)
    } catch (cause) {
      setSentence(`The photo could not be read: ${sentenceOf(cause)}`)
    }
  }
  return (
    <section class="field-page" aria-label="Scan a label">
      <h2>Scan a label</h2>
      <Show
        when={running()}
        fallback={
          <button type="button" onClick={() => void start()}>
            Use the camera
          </button>
        }
      >
        <button type="button" onClick={stop}>
          Stop the camera
        </button>
      </Show>
      <video
        class="scan-video"
        classList={{ running: running() }}
        ref={(made) => (video = made)}
        muted
        playsinline
      />
      <label>
        or a photo of the label
        <input
          type="file"
          accept="image/*"
          capture="environment"
          onChange={(event) => {
            void fromPhoto(event.currentTarget.files?.[0])
            event.currentTarget.value = ''
          }}
        />
      </label>
      <Show when={sentence()}>
        <p class="trouble" role="alert">
          {sentence()}
        </p>
      </Show>
      <Show when={opened()}>{(instrument) => <OpenedInstrument instrument={instrument()} />}</Show>
    </section>
  )
}

/** The text of a code in a picture; null where none is found. */
function codeIn(picture: CanvasImageSource, width: number, height: number): string | null {
  const share = Math.min(1, longestSidePixels / Math.max(width, height))
  const [across, down] = [Math.round(width * share), Math.round(height * share)]
  const canvas = new OffscreenCanvas(across, down)
  const drawing = canvas.getContext('2d', { willReadFrequently: true })
  if (!drawing) return null
  drawing.drawImage(picture, 0, 0, across, down)
  try {
    return decodeQR(drawing.getImageData(0, 0, across, down))
  } catch {
    // The library throws where it finds no code.
    return null
  }
}
