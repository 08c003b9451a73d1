/** What was bought of a product, for wherever it is bought: the form of its own page, begun with what is known. */
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { shed } from "../model";
import { buyForm } from "../model/buy";

interface Props {
  open: boolean;
  onClose: () => void;
  id: string;
  /** How many are wanted. */
  bags?: number;
}

export function BuySheet({ open, onClose, id, bags }: Props) {
  const product = shed.row("product", id).value;
  if (!product) return null;
  return <SchemaSheet open={open} onClose={onClose} make={() => buyForm(forming, product, bags)} />;
}
