CREATE TABLE "challenges" (
	"nonce_hash" "bytea" PRIMARY KEY NOT NULL,
	"expires_at" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "codes" (
	"code_hash" "bytea" PRIMARY KEY NOT NULL,
	"purpose" text NOT NULL,
	"company" uuid,
	"person" text,
	"use" text,
	"expires_at" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"token_hash" "bytea" PRIMARY KEY NOT NULL,
	"company" uuid NOT NULL,
	"device" uuid NOT NULL,
	"expires_at" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "device_heads" (
	"company" uuid NOT NULL,
	"device" uuid NOT NULL,
	"epoch" integer NOT NULL,
	"size" bigint NOT NULL,
	"note_hash" "bytea" NOT NULL,
	"root" "bytea" NOT NULL,
	"note" text NOT NULL,
	"at_size" bigint NOT NULL,
	"received_at" bigint NOT NULL,
	"disputed" boolean NOT NULL,
	CONSTRAINT "device_heads_company_device_epoch_size_note_hash_pk" PRIMARY KEY("company","device","epoch","size","note_hash")
);
--> statement-breakpoint
CREATE TABLE "device_leaves" (
	"company" uuid NOT NULL,
	"device" uuid NOT NULL,
	"epoch" integer NOT NULL,
	"index" bigint NOT NULL,
	"entry_hash" "bytea" NOT NULL,
	CONSTRAINT "device_leaves_company_device_epoch_index_pk" PRIMARY KEY("company","device","epoch","index")
);
--> statement-breakpoint
CREATE TABLE "device_logs" (
	"company" uuid NOT NULL,
	"device" uuid NOT NULL,
	"epoch" integer NOT NULL,
	"size" bigint NOT NULL,
	"peaks" "bytea" NOT NULL,
	CONSTRAINT "device_logs_company_device_epoch_pk" PRIMARY KEY("company","device","epoch")
);
--> statement-breakpoint
CREATE TABLE "set_aside" (
	"company" uuid NOT NULL,
	"entry_hash" "bytea" NOT NULL,
	"device" uuid NOT NULL,
	"bytes" "bytea" NOT NULL,
	"received_at" bigint NOT NULL,
	CONSTRAINT "set_aside_company_entry_hash_pk" PRIMARY KEY("company","entry_hash")
);
--> statement-breakpoint
CREATE TABLE "blobs" (
	"company" uuid NOT NULL,
	"hash" "bytea" NOT NULL,
	"bytes" bigint NOT NULL,
	"type" text NOT NULL,
	"received_at" bigint NOT NULL,
	CONSTRAINT "blobs_company_hash_pk" PRIMARY KEY("company","hash")
);
--> statement-breakpoint
CREATE TABLE "checkpoints" (
	"company" uuid NOT NULL,
	"size" bigint NOT NULL,
	"root" "bytea" NOT NULL,
	"note" text NOT NULL,
	CONSTRAINT "checkpoints_company_size_pk" PRIMARY KEY("company","size")
);
--> statement-breakpoint
CREATE TABLE "companies" (
	"company" uuid PRIMARY KEY NOT NULL,
	"origin" text NOT NULL,
	"size" bigint NOT NULL,
	"peaks" "bytea" NOT NULL,
	"stopped_code" text,
	"stopped_evidence" text,
	CONSTRAINT "companies_origin_unique" UNIQUE("origin")
);
--> statement-breakpoint
CREATE TABLE "leaves" (
	"company" uuid NOT NULL,
	"position" bigint NOT NULL,
	"entry_hash" "bytea" NOT NULL,
	"id" uuid NOT NULL,
	"job" uuid NOT NULL,
	"count" bigint NOT NULL,
	"kind" text NOT NULL,
	"device" uuid NOT NULL,
	"received_at" bigint NOT NULL,
	"leaf" "bytea" NOT NULL,
	"leaf_hash" "bytea" NOT NULL,
	"bytes" "bytea",
	CONSTRAINT "leaves_company_position_pk" PRIMARY KEY("company","position"),
	CONSTRAINT "leaves_company_entry_hash_unique" UNIQUE("company","entry_hash"),
	CONSTRAINT "leaves_company_id_unique" UNIQUE("company","id"),
	CONSTRAINT "leaves_company_job_count_unique" UNIQUE("company","job","count")
);
--> statement-breakpoint
CREATE TABLE "photo_mentions" (
	"company" uuid NOT NULL,
	"photo" "bytea" NOT NULL,
	"job" uuid NOT NULL,
	"kind" text NOT NULL,
	CONSTRAINT "photo_mentions_company_photo_job_kind_pk" PRIMARY KEY("company","photo","job","kind")
);
--> statement-breakpoint
CREATE TABLE "threads" (
	"company" uuid NOT NULL,
	"job" uuid NOT NULL,
	"tag" "bytea" NOT NULL,
	"count" bigint NOT NULL,
	"last" "bytea" NOT NULL,
	"last_position" bigint NOT NULL,
	CONSTRAINT "threads_company_job_pk" PRIMARY KEY("company","job")
);
--> statement-breakpoint
CREATE TABLE "views" (
	"company" uuid NOT NULL,
	"job" uuid NOT NULL,
	"name" text NOT NULL,
	"version" integer NOT NULL,
	"count" bigint NOT NULL,
	"body" text NOT NULL,
	CONSTRAINT "views_company_job_name_pk" PRIMARY KEY("company","job","name")
);
--> statement-breakpoint
CREATE INDEX "sessions_company_device_index" ON "sessions" USING btree ("company","device");--> statement-breakpoint
CREATE INDEX "device_leaves_company_entry_hash_index" ON "device_leaves" USING btree ("company","entry_hash");--> statement-breakpoint
CREATE INDEX "photo_mentions_company_job_index" ON "photo_mentions" USING btree ("company","job");