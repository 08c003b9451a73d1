/** The order zones stand in wherever they are listed: the show patch first, then by name. */
export interface Listed {
  id: string;
  name: string;
  show: boolean;
}

export const inOrder = (a: Listed, b: Listed): number =>
  Number(b.show) - Number(a.show) || a.name.localeCompare(b.name) || a.id.localeCompare(b.id);
