/** One member: their role, and ending their membership. The server decides, so this needs signal. */
import { useEffect, useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { Button, ChoiceField, Empty, Page, Standing, showToast } from "../../../../ui/parts";
import { household } from "../../model";
import type { Member, Role } from "../../model/household";
import { members } from "../../model/together";
import { Ask } from "../ask";
import { Wrong } from "../remote";
import { sayRole } from "./members";

export function MemberPage({ id }: { id: string }) {
  const member = household.members.value.find((one) => one.id === id);
  useEffect(() => members.begin(), []);
  return (
    <Page
      title={member?.name ?? "Member"}
      back="/household"
      backLabel="Back to the household"
      actions={<Standing />}
    >
      {member ? (
        <One member={member} />
      ) : household.loaded.value ? (
        <Empty title="No such member on this phone" />
      ) : (
        <p aria-busy="true">Reading the book …</p>
      )}
    </Page>
  );
}

function One({ member }: { member: Member }) {
  const keeper = household.keeper.value;
  return (
    <>
      <p>{sayRole(member)}</p>
      {keeper && member.active ? <RoleChoice member={member} /> : null}
      {(keeper || member.me) && member.active ? <Ending member={member} /> : null}
      {!keeper && !member.me ? <p class="quiet">Only a keeper can change roles or remove someone.</p> : null}
    </>
  );
}

const problemOf = (member: Member) =>
  members.problem.value?.of === member.id ? members.problem.value.says : undefined;

function RoleChoice({ member }: { member: Member }) {
  async function take(role: Role): Promise<void> {
    if (role === member.role) return;
    if (await members.setRole(member.id, role))
      showToast({
        text: role === "keeper" ? `${member.name} is keeper now.` : `${member.name} is member now.`,
      });
  }
  return (
    <section class="section" aria-labelledby="role">
      <h2 id="role">Role</h2>
      <ChoiceField
        label={`What ${member.name} may do`}
        hint="Members can add and edit everything. Keepers also invite, remove and rename. Needs a signal."
        value={member.role}
        onInput={take}
        choices={[
          { value: "member", label: "Member" },
          { value: "keeper", label: "Keeper" },
        ]}
        error={problemOf(member)}
      />
    </section>
  );
}

function Ending({ member }: { member: Member }) {
  const [asking, setAsking] = useState(false);
  const [, go] = useLocation();
  async function end(): Promise<void> {
    const done = await members.remove(member.id);
    setAsking(!done);
    if (!done) return;
    showToast({ text: member.me ? "You have left the household." : `${member.name} is removed.` });
    go("/household", { replace: true });
  }
  const says = member.me ? "Leave the household" : `Remove ${member.name}`;
  return (
    <section class="section" aria-labelledby="ending">
      <h2 id="ending">{member.me ? "Leaving" : "Removing"}</h2>
      <p class="quiet">
        {member.me
          ? "What you entered stays. Your phones get nothing new after that."
          : `What ${member.name} entered stays. Needs a signal.`}
      </p>
      <div>
        <Button tone="danger" onClick={() => setAsking(true)}>
          {says}
        </Button>
      </div>
      <Ask
        title={asking ? `${says}?` : undefined}
        yes={member.me ? "Leave" : "Remove"}
        no={member.me ? "Stay" : "Leave as it is"}
        busy={members.busy.value === member.id}
        onYes={end}
        onNo={() => setAsking(false)}
      >
        <p>
          {member.me ? "Your phones" : "Their phones"} lose access to the household at once. The book on them
          can still be read and exported.
        </p>
        <p>
          What {member.me ? "you have" : "they have"} entered but not sent is held: a keeper accepts or
          declines it. A new invitation opens the book again.
        </p>
        <Wrong says={problemOf(member)} />
      </Ask>
    </section>
  );
}
