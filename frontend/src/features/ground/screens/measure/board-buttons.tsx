import { ArrowDown, ArrowLeft, ArrowRight, ArrowUp, ZoomIn, ZoomOut } from "lucide-preact";
import { Button } from "../../../../ui/parts";

interface BoardButtonsProps {
  /** What is moved: "the chosen corner"; nothing is chosen where undefined. */
  what: string | undefined;
  onNudge: (right: number, up: number) => void;
  onZoom: (factor: number) => void;
}

const CLOSER = 1.5;
const WAYS = [
  { says: "left", right: -1, up: 0, Icon: ArrowLeft },
  { says: "up", right: 0, up: 1, Icon: ArrowUp },
  { says: "down", right: 0, up: -1, Icon: ArrowDown },
  { says: "right", right: 1, up: 0, Icon: ArrowRight },
];

/** Under a board: move what is chosen by a dot, and look nearer; for gloves and keyboards. */
export function BoardButtons({ what, onNudge, onZoom }: BoardButtonsProps) {
  return (
    <div class="board-buttons">
      {WAYS.map(({ says, right, up, Icon }) => (
        <Button key={says} label={`Move ${says}`} disabled={!what} onClick={() => onNudge(right, up)}>
          <Icon aria-hidden="true" size={20} />
        </Button>
      ))}
      <Button label="Farther" onClick={() => onZoom(1 / CLOSER)}>
        <ZoomOut aria-hidden="true" size={20} />
      </Button>
      <Button label="Nearer" onClick={() => onZoom(CLOSER)}>
        <ZoomIn aria-hidden="true" size={20} />
      </Button>
    </div>
  );
}
