import { Volume2, VolumeX } from "lucide-preact";
import { canSpeak, setSpeech, speech } from "../../platform/session/speech";
import { Button } from "./button";

/** Turns the phone's voice on and off with one tap; nothing where the phone has none. */
export function SpeechSwitch() {
  if (!canSpeak()) return null;
  const on = speech.on.value;
  const Icon = on ? Volume2 : VolumeX;
  return (
    <Button size="yard" label="Speak dial and strip" pressed={on} onClick={() => setSpeech(!on)}>
      <Icon aria-hidden="true" size={26} />
    </Button>
  );
}
