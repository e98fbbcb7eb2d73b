/** A file larger than this does not travel over a site's radio in one piece. */
export const largestFileBytes = 24e6

const longestSidePixels = 2560

/** A copy of a photo, its longer side at most 2560 pixels, as JPEG. Rejects where the browser cannot read it as one. */
export async function smallerPhoto(file: File): Promise<File> {
  const picture = await createImageBitmap(file)
  const share = Math.min(1, longestSidePixels / Math.max(picture.width, picture.height))
  const [width, height] = [Math.round(picture.width * share), Math.round(picture.height * share)]
  const canvas = new OffscreenCanvas(width, height)
  const drawing = canvas.getContext('2d')
  if (!drawing) throw new Error('this browser gives no canvas')
  drawing.drawImage(picture, 0, 0, width, height)
  picture.close()
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.85 })
  if (blob.size > largestFileBytes) throw new Error('the copy is still too large')
  return new File([blob], `${file.name.replace(/\.\w+$/, '')}-smaller.jpg`, { type: 'image/jpeg' })
}
