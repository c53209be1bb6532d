CREATE TABLE "stamps" (
	"company" uuid NOT NULL,
	"token" "bytea" NOT NULL,
	"size" bigint NOT NULL,
	"bytes" "bytea" NOT NULL,
	"received_at" bigint NOT NULL,
	CONSTRAINT "stamps_company_token_pk" PRIMARY KEY("company","token")
);
