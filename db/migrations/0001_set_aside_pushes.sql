CREATE TABLE "set_aside_pushes" (
	"company" uuid NOT NULL,
	"device" uuid NOT NULL,
	"note_hash" "bytea" NOT NULL,
	"epoch" integer NOT NULL,
	"from_index" bigint NOT NULL,
	"hashes" "bytea" NOT NULL,
	"size" bigint NOT NULL,
	"root" "bytea" NOT NULL,
	"note" text NOT NULL,
	"received_at" bigint NOT NULL,
	CONSTRAINT "set_aside_pushes_company_device_note_hash_pk" PRIMARY KEY("company","device","note_hash")
);
--> statement-breakpoint
CREATE INDEX "set_aside_company_device_index" ON "set_aside" USING btree ("company","device");