/**
 * Speaks a text with a voice that this phone has by itself; a voice from the network would send the text away. False where
 * it has none for this language. Only ever called by a touch.
 */
export const speak = (text: string, language: string): boolean => {
  if (typeof speechSynthesis === 'undefined') return false
  const voice = speechSynthesis
    .getVoices()
    .find((one) => one.localService && one.lang.toLowerCase().startsWith(language))
  if (!voice) return false
  hush()
  const said = new SpeechSynthesisUtterance(text)
  said.voice = voice
  said.lang = voice.lang
  speechSynthesis.speak(said)
  return true
}

export const hush = (): void => {
  if (typeof speechSynthesis !== 'undefined') speechSynthesis.cancel()
}

/** Some browsers fetch their list of voices at the first asking: asked early, it is there at the touch. */
export const wakeVoices = (): void => {
  if (typeof speechSynthesis !== 'undefined') speechSynthesis.getVoices()
}
